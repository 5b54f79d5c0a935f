using Tankside.Science.Units;

namespace Tankside.Science.Heat;

/// <summary>
/// Time constants computed from film and wall resistances of six common glass vessels (15 W pump, water at 10 °C, room 21 °C):
/// "bare glass, dry film" and "1 in XPS with 50% leakage". Computed estimate, not measured.
/// </summary>
internal static class WarmingTable
{
    private static readonly (double Gallons, double BareHours, double FoamHours)[] Rows =
    [
        (10, 8.1, 41.2),
        (15, 9.4, 48.1),
        (20, 10.5, 53.4),
        (29, 11.8, 59.9),
        (40, 12.0, 61.0),
        (55, 13.1, 66.6),
    ];

    public static (double MidHours, double LogSd) Tau(Litres litres, Jacket jacket)
    {
        var gallons = Require.Positive(litres.Value, nameof(litres)) / Litres.PerUsGallon;
        var inside = gallons >= Rows[0].Gallons - Rounding && gallons <= Rows[^1].Gallons + Rounding;
        return (Between(gallons, jacket), inside ? Warming.TauLogSd : Warming.TauLogSdExtrapolated);
    }

    // 38 L and 208 L are the ends as people write them.
    private const double Rounding = 0.05;

    private static double Between(double gallons, Jacket jacket)
    {
        if (gallons <= Rows[0].Gallons) return Hours(Rows[0], jacket) * Math.Cbrt(gallons / Rows[0].Gallons);
        if (gallons >= Rows[^1].Gallons) return Hours(Rows[^1], jacket) * Math.Cbrt(gallons / Rows[^1].Gallons);
        var upper = Array.FindIndex(Rows, row => row.Gallons >= gallons);
        var (low, high) = (Rows[upper - 1], Rows[upper]);
        var share = Math.Log(gallons / low.Gallons) / Math.Log(high.Gallons / low.Gallons);
        return Hours(low, jacket) * Math.Pow(Hours(high, jacket) / Hours(low, jacket), share);
    }

    private static double Hours((double Gallons, double BareHours, double FoamHours) row, Jacket jacket) => jacket switch
    {
        Jacket.None => row.BareHours,
        Jacket.Foam => row.FoamHours,
        _ => throw new ArgumentOutOfRangeException(nameof(jacket), jacket, "Not a known jacket."),
    };
}
