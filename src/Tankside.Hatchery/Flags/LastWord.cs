using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>Who had the last word on a trouble. A word on something else, such as the room's warmth, is none.</summary>
public static class LastWord
{
    /// <summary>True when the newest reading that says anything about the trouble came by room code alone.</summary>
    /// <param name="recent">Readings that count, ascending by time.</param>
    public static bool IsClass(FlagKind kind, IReadOnlyList<ReadingFact> recent) =>
        recent.LastOrDefault(r => SpeaksTo(kind, r.Seen)) is { ByClass: true };

    /// <summary>As by the readings, but an adult's answer that all is well is the last word on not knowing until a newer reading comes.</summary>
    public static bool IsClass(FlagKind kind, TankRecord record) =>
        IsClass(kind, record.Recent) && !(kind == FlagKind.Silent && record.Marks.Any(
            m => m.Word is { Answer: SweepAnswer.AllWell, At: var at } && at > record.Recent[^1].At));

    /// <summary>
    /// As by the record. A silence is ended by a class only if the class has read since what the flag stands on; and what stood on a marked
    /// area is over with a mark that was taken back, whoever read meanwhile.
    /// </summary>
    public static bool IsClass(Flag flag, TankRecord record) => IsClass(flag.Kind, record)
        && (flag.Kind != FlagKind.Silent || record.Recent[^1].At > flag.StandsOn && StillMarked(flag.Evidence, record.Marks));

    private static bool StillMarked(Evidence evidence, IReadOnlyList<AreaMark> marks)
    {
        var held = marks.Where(m => !(m.EndedAt <= m.From));
        return evidence switch
        {
            PowerCutEvidence e => held.Any(m => m.From == e.Since || m.Word?.At == e.Since),
            TroubleSaidEvidence e => held.Any(m => m.From == e.MarkedAt),
            ShutEvidence e => held.Any(m => m.From == e.Since),
            _ => true,
        };
    }

    private static bool SpeaksTo(FlagKind kind, Observation seen) => kind switch
    {
        FlagKind.Warm or FlagKind.Cold or FlagKind.WarmingFast => seen.WaterC is not null || seen.FeelsWarm is not null,
        FlagKind.IcedCoil => seen.IceOnCoil is not null || seen.WaterC is not null,
        FlagKind.ChillerFault => seen.ChillerRunning is not null || seen.WaterC is not null,
        FlagKind.PumpFault => (seen.Moving ?? seen.Bubbles ?? seen.WaterOnFloor) is not null,
        FlagKind.Ammonia => (seen.AmmoniaTotalMgL ?? seen.Ph) is not null,
        FlagKind.LowOxygen => seen.OxygenMgL is not null || seen.Gasping is not null,
        FlagKind.Nitrite => seen.NitriteMgL is not null,
        FlagKind.Chlorine => seen.ChlorineMgL is not null || seen.Gasping is not null,
        FlagKind.Metals => (seen.DeadAlevins ?? seen.DeadFry) is not null,
        FlagKind.PhSag => seen.Ph is not null,
        FlagKind.Fungus => seen.Fungus is not null,
        FlagKind.Contradictory => (seen.Hatched ?? seen.Swimming) is not null || (seen.Fed ?? seen.ChillerRunning) is not null
            || (seen.DeadAlevins ?? seen.DeadFry) is not null,
        FlagKind.StuckThermometer => seen.WaterC is not null,
        FlagKind.DieOff => (seen.DeadEggs ?? seen.DeadAlevins ?? seen.DeadFry) is not null,
        FlagKind.LateHatch or FlagKind.EarlyHatch => (seen.Hatched ?? seen.Swimming) is not null,
        FlagKind.NotReady => seen.WaterC is not null,
        FlagKind.FeedingNearBreak or FlagKind.Tally or FlagKind.ReportLate => false, // The calendar and the ledger are kept by adults.
        _ => true,
    };
}
