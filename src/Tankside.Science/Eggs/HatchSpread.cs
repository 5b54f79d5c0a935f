namespace Tankside.Science.Eggs;

/// <summary>How long a hatch takes from the first to the last, as a share of the days to half hatch.</summary>
/// <remarks>
/// w = (days from first to last) / D, so that it can be taken in the sum of development, in which the half is 1.
/// <list type="bullet">
/// <item>Rainbow trout, steelhead: 2-4 days for farmed fish (common practice, no source), of 32 days at 10 °C: 0.09.</item>
/// <item>Brown trout: 5-34 °C-days (Debowski and others 2006, abstract seen) of about 430: 0.045.</item>
/// <item>Coho: 7-21 days within families at 6 °C (Konecki and others 1995, abstract seen) of about 78: 0.18; borrowed for the other
/// Pacific salmon.</item>
/// <item>All others: no source; the rainbow trout's is taken.</item>
/// </list>
/// That half lies in the middle of first and last has no source: of pink salmon it is known that emergence has one peak and is not
/// normal. From first or last to half is therefore w / 2 with a standard deviation of w / 4.
/// </remarks>
public static class HatchSpread
{
    /// <summary>w, the share of the way from fertilisation to half hatch that passes between the first and the last to hatch.</summary>
    /// <param name="species">The species.</param>
    public static double FirstToLast(Species species) => species switch
    {
        Species.BrownTrout => 0.045,
        Species.CohoSalmon or Species.ChinookSalmon or Species.ChumSalmon or Species.SockeyeSalmon
            or Species.PinkSalmonOdd or Species.PinkSalmonEven => 0.18,
        _ => 0.09,
    };

    /// <summary>From the first or the last to half: the share of the way and its standard deviation.</summary>
    /// <param name="species">The species.</param>
    public static (double Share, double Sd) ToHalf(Species species) => (FirstToLast(species) / 2, FirstToLast(species) / 4);
}
