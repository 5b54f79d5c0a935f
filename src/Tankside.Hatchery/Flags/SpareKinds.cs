using Tankside.Hatchery.Kit;

namespace Tankside.Hatchery.Flags;

/// <summary>Which kit helps against which trouble (common practice, no source).</summary>
public static class SpareKinds
{
    /// <summary>The best first; empty where no kit helps.</summary>
    public static IReadOnlyList<KitKind> For(FlagKind kind) => kind switch
    {
        FlagKind.Warm or FlagKind.WarmingFast or FlagKind.ChillerFault or FlagKind.IcedCoil => [KitKind.Chiller],
        FlagKind.PumpFault => [KitKind.Pump, KitKind.AirPump, KitKind.BatteryAir],
        FlagKind.LowOxygen => [KitKind.AirPump, KitKind.BatteryAir],
        FlagKind.Ammonia or FlagKind.Nitrite => [KitKind.Filter],
        FlagKind.StuckThermometer or FlagKind.Contradictory => [KitKind.Thermometer],
        FlagKind.NotReady => [KitKind.Chiller, KitKind.Thermometer],
        FlagKind.Cold or FlagKind.Chlorine or FlagKind.Metals or FlagKind.PhSag or FlagKind.DieOff or FlagKind.Fungus or FlagKind.LateHatch
            or FlagKind.EarlyHatch or FlagKind.FeedingNearBreak or FlagKind.Silent or FlagKind.Tally or FlagKind.ReportLate or FlagKind.SharedCause => [],
    };

    /// <summary>Everything that would help against a tank's troubles, in the order of the troubles.</summary>
    public static IReadOnlyList<KitKind> For(IEnumerable<FlagKind> kinds) => [.. kinds.SelectMany(For).Distinct()];
}
