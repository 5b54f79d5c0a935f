namespace Tankside.Hatchery.Flags;

/// <summary>What actually kills. Several kinds of flag can be signs of the same danger.</summary>
public enum Danger
{
    Heat,
    Cold,
    Air,
    Poison,
    Disease,
    Hunger,
    NotKnowing,
    None,
}

/// <summary>Which danger a kind of flag is a sign of.</summary>
public static class Dangers
{
    public static Danger Of(FlagKind kind) => kind switch
    {
        FlagKind.Warm or FlagKind.WarmingFast or FlagKind.ChillerFault or FlagKind.IcedCoil => Danger.Heat,
        FlagKind.Cold => Danger.Cold,
        FlagKind.PumpFault or FlagKind.LowOxygen => Danger.Air,
        FlagKind.Ammonia or FlagKind.Nitrite or FlagKind.Chlorine or FlagKind.Metals or FlagKind.PhSag => Danger.Poison,
        FlagKind.DieOff or FlagKind.Fungus or FlagKind.LateHatch or FlagKind.EarlyHatch or FlagKind.SharedCause => Danger.Disease,
        FlagKind.FeedingNearBreak => Danger.Hunger,
        FlagKind.Silent or FlagKind.Contradictory or FlagKind.StuckThermometer => Danger.NotKnowing,
        FlagKind.NotReady or FlagKind.Tally or FlagKind.ReportLate => Danger.None,
    };

    /// <summary>Share of a tank's fish lost to several troubles: 1 - product of (1 - share), where signs of one danger count as their worst.</summary>
    public static double ShareLost(IEnumerable<(FlagKind Kind, double Share)> troubles) =>
        1 - troubles.GroupBy(t => Of(t.Kind)).Aggregate(1.0, (kept, danger) => kept * (1 - danger.Max(t => t.Share)));
}
