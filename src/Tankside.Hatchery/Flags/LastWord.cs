using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>Who had the last word on a trouble. A word on something else, such as the room's warmth, is none.</summary>
public static class LastWord
{
    /// <summary>True when the newest reading that says anything about the trouble came by room code alone.</summary>
    /// <param name="recent">Readings that count, ascending by time.</param>
    public static bool IsClass(FlagKind kind, IReadOnlyList<ReadingFact> recent) =>
        recent.LastOrDefault(r => SpeaksTo(kind, r.Seen)) is { ByClass: true };

    private static bool SpeaksTo(FlagKind kind, Observation seen) => kind switch
    {
        FlagKind.Warm or FlagKind.Cold or FlagKind.WarmingFast => seen.WaterC is not null,
        FlagKind.IcedCoil => seen.IceOnCoil is not null || seen.WaterC is not null,
        FlagKind.ChillerFault => seen.ChillerRunning is not null || seen.WaterC is not null,
        FlagKind.PumpFault => (seen.Moving ?? seen.Bubbles) is not null,
        FlagKind.Ammonia => (seen.AmmoniaTotalMgL ?? seen.Ph) is not null,
        FlagKind.DieOff => (seen.DeadEggs ?? seen.DeadAlevins ?? seen.DeadFry) is not null,
        FlagKind.LateHatch => (seen.Hatched ?? seen.Swimming) is not null,
        _ => true,
    };
}
