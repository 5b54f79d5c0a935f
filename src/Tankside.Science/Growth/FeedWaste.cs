namespace Tankside.Science.Growth;

/// <summary>What food does to the water of a standing tank.</summary>
/// <remarks>
/// Ammonia made is food x protein share x 0.092 (as N; hatchery and aquaculture handbooks, document seen). Bacteria of a ripe filter take up
/// 0.45 g N for each square metre and day at 10 °C, and take 6 to 8 weeks to get there (document seen): an unripe filter fails at first
/// feeding, not at hatch.
/// </remarks>
public static class FeedWaste
{
    /// <summary>Ammonia made for each gram of protein fed, g N.</summary>
    public const double NitrogenPerProtein = 0.092;

    /// <summary>Protein of starter food, share (common practice: 45-55%).</summary>
    public const double StarterProtein = 0.5;

    /// <summary>Total ammonia made, mg N.</summary>
    /// <param name="foodGrams">Food, g; 0 or more.</param>
    /// <param name="protein">Share of protein, 0 to 1.</param>
    public static double AmmoniaMgN(double foodGrams, double protein = StarterProtein) => 1000 * foodGrams * protein * NitrogenPerProtein;

    /// <summary>Surface that a ripe filter needs for it at 10 °C, m².</summary>
    /// <param name="ammoniaMgNADay">Ammonia made a day, mg N.</param>
    public static double RipeFilterM2(double ammoniaMgNADay) => ammoniaMgNADay / 1000 / 0.45;

    /// <summary>
    /// What a daily dose levels off at, just before each change, where nothing but water changes takes it away: dose / share. After n changes
    /// of a share f, (1 - f)^n of what was there is left.
    /// </summary>
    /// <param name="doseMgL">Added between two changes, mg/L.</param>
    /// <param name="share">Share of the water changed each time, above 0 to 1.</param>
    public static double SteadyPeak(double doseMgL, double share) =>
        share is > 0 and <= 1 ? doseMgL / share : throw new ArgumentOutOfRangeException(nameof(share), share, "Above 0, up to 1.");

    /// <summary>Share of what was there that is left after so many changes: (1 - f)^n.</summary>
    public static double LeftAfter(int changes, double share) => Math.Pow(1 - share, changes);
}
