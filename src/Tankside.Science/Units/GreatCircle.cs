namespace Tankside.Science.Units;

/// <summary>A place on the globe, degrees; north and east are positive.</summary>
/// <param name="Latitude">-90 to 90.</param>
/// <param name="Longitude">-180 to 180.</param>
public readonly record struct GeoPoint(double Latitude, double Longitude)
{
    /// <summary>Null unless both are there and lie on the globe.</summary>
    public static GeoPoint? Of(double? latitude, double? longitude) =>
        latitude is >= -90 and <= 90 && longitude is >= -180 and <= 180 ? new GeoPoint(latitude.Value, longitude.Value) : null;
}

/// <summary>Distance over the globe.</summary>
public static class GreatCircle
{
    /// <summary>Mean radius of the earth, km (IUGG: R1 = 6371.0088).</summary>
    private const double EarthKm = 6371.0088;

    /// <summary>
    /// Kilometres along the great circle, by the haversine formula (Sinnott 1984; from memory), on a sphere: within 0.6% of the ellipsoid.
    /// </summary>
    public static double Km(GeoPoint from, GeoPoint to)
    {
        var (a, b) = (Radians(from.Latitude), Radians(to.Latitude));
        var half = Square(Math.Sin((b - a) / 2))
            + (Math.Cos(a) * Math.Cos(b) * Square(Math.Sin(Radians(to.Longitude - from.Longitude) / 2)));
        return 2 * EarthKm * Math.Asin(Math.Min(1, Math.Sqrt(half)));
    }

    private static double Radians(double degrees) => degrees * Math.PI / 180;

    private static double Square(double x) => x * x;
}
