using Tankside.Science.Units;

namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>
/// How long a drive takes: along the great circle, stretched by how much roads wind, at a mean speed over the whole way. It knows no traffic and
/// no snow, so both numbers are the run's own and a coordinator corrects them by what drivers report.
/// </summary>
/// <param name="Detour">Kilometres driven for each in a straight line; about 1.2 to 1.5 on ordinary road nets (no source of our own).</param>
/// <param name="KmPerHour">Mean speed over the way, stops at lights included.</param>
public sealed record Roads(double Detour, double KmPerHour)
{
    public static readonly Roads Usual = new(1.35, 50);

    /// <summary>Whole minutes, rounded up: a plan is never early on paper and late on the road by a rounding.</summary>
    public int Minutes(GeoPoint from, GeoPoint to) => (int)Math.Ceiling(Math.Round(Kilometres(from, to) / KmPerHour * 60, 6));

    public double Kilometres(GeoPoint from, GeoPoint to) => GreatCircle.Km(from, to) * Detour;
}
