using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>How much oxygen eggs and fish use, and the open surface of common vessels.</summary>
public static class OxygenDemand
{
    // Common glass vessels: US gallons and the open surface (length x width).
    private static readonly (double Gallons, double SurfaceM2)[] Vessels =
        [(10, 0.1290), (15, 0.1858), (20, 0.1858), (29, 0.2323), (40, 0.4181), (55, 0.4026)];

    /// <summary>
    /// Oxygen used by one egg or fish, mg/h, as an 80% range. Egg 0.006-0.027, alevin 0.022-0.05 at 10 °C (low ends derived from
    /// From and Rasmussen 1991 weights, second-hand; high ends cautious estimates). Fry at 10 °C: 1.2 to 3 times the resting
    /// 320 W^-0.14 mg per kg and hour, W in g (computed curves for several salmonids give 270-400 at 0.2-3 g; active fish use
    /// 1.5 times and distressed ones up to 3 times that; the low factor has no source). All change by 8.5% per °C about 10 °C
    /// (read off the computed curves at 8-15 °C). Throws for fry without a positive weight.
    /// </summary>
    /// <param name="stage">What breathes.</param>
    /// <param name="water">Water temperature, °C; sensible at 2-20.</param>
    /// <param name="meanGrams">Mean weight W of fry, g; sensible at 0.1-10; ignored for eggs and alevins.</param>
    public static Band PerFish(FishStage stage, Celsius water, double meanGrams)
    {
        var (low, high) = stage switch
        {
            FishStage.Egg => (0.006, 0.027),
            FishStage.Alevin => (0.022, 0.05),
            FishStage.Fry => Fry(meanGrams),
            _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "Not a known stage."),
        };
        var warmth = Math.Exp(0.085 * (water.Degrees - 10));
        return new Band(low * warmth, Math.Sqrt(low * high) * warmth, high * warmth);
    }

    /// <summary>
    /// Open surface of a common glass vessel, m²: log-log between six usual sizes (10-55 US gal, length x width of the makers'
    /// nominal sizes); outside it grows with volume^(2/3) from the nearest end. Throws unless the volume is positive.
    /// </summary>
    /// <param name="volume">Water volume, L.</param>
    public static double SurfaceFor(Litres volume)
    {
        var gallons = Require.Positive(volume.Value, nameof(volume)) / Litres.PerUsGallon;
        if (gallons <= Vessels[0].Gallons) return Vessels[0].SurfaceM2 * Math.Pow(gallons / Vessels[0].Gallons, 2.0 / 3);
        if (gallons >= Vessels[^1].Gallons) return Vessels[^1].SurfaceM2 * Math.Pow(gallons / Vessels[^1].Gallons, 2.0 / 3);
        var upper = Array.FindIndex(Vessels, row => row.Gallons >= gallons);
        var (low, high) = (Vessels[upper - 1], Vessels[upper]);
        var share = Math.Log(gallons / low.Gallons) / Math.Log(high.Gallons / low.Gallons);
        return low.SurfaceM2 * Math.Pow(high.SurfaceM2 / low.SurfaceM2, share);
    }

    private static (double Low, double High) Fry(double grams)
    {
        var resting = 320 * Math.Pow(Require.Positive(grams, nameof(grams)), -0.14) * grams / 1000;
        return (1.2 * resting, 3 * resting);
    }
}
