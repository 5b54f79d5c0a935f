using Tankside.Hatchery.Releases;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags.Years;

/// <summary>A flag of one tank, as a season is looked back on.</summary>
/// <param name="LookBefore">The last look at the tank before the one that raised it, UTC; null when there was none.</param>
/// <param name="ActedAt">When a person first did something about it; null when it cleared by itself.</param>
/// <param name="Cause">What it turned out to be, when a person said so.</param>
/// <param name="FalseAlarm">True when a person found that nothing was wrong.</param>
public sealed record PastFlag(
    Guid TankId, FlagKind Kind, DateTime OpenedAt, DateTime? SettledAt, DateTime? LookBefore, DateTime? ActedAt, TroubleCause? Cause, bool FalseAlarm);

/// <summary>Fish or eggs that died in a tank, as the ledger has them.</summary>
public sealed record PastLoss(Guid TankId, DateTime At, int Count);

/// <summary>Losses that one cause is held answerable for; a null cause is those with no trouble on record.</summary>
public sealed record LossOfCause(TroubleCause? Cause, int Count, int Tanks);

/// <summary>A median with its interval, and how many it is of how many.</summary>
public sealed record Typical(double? Median, double? Low, double? High, int Known, int Of)
{
    public static Typical Over(IReadOnlyCollection<double?> values)
    {
        var known = values.OfType<double>().ToList();
        return MedianInterval.Of(known) is { } found
            ? new Typical(found.Median, found.Low, found.High, known.Count, values.Count)
            : new Typical(null, null, null, 0, values.Count);
    }
}

/// <summary>What a season can be compared with others by.</summary>
/// <param name="HoursUnseen">From the last look before to the flag: trouble began somewhere in it, so it is the most that noticing took.</param>
/// <param name="HoursToAct">From the flag to the first deed of a person.</param>
/// <param name="ChillerTanks">Tanks with a chiller fault that nobody found to be a false alarm, out of those supplied.</param>
public sealed record SeasonYear(
    string Season, PooledSurvival Survival, int Lost, IReadOnlyList<LossOfCause> Losses, Typical HoursUnseen, Typical HoursToAct,
    int ChillerTanks, int Supplied, Survival ChillerRate)
{
    /// <summary>A loss counts to a trouble from a day before it was found until a day after it was over: the dead are often removed late.</summary>
    public static readonly TimeSpan Around = TimeSpan.FromDays(1);

    public static SeasonYear Of(SeasonTotals totals, int supplied, IReadOnlyList<PastFlag> flags, IReadOnlyList<PastLoss> losses)
    {
        var real = flags.Where(f => !f.FalseAlarm).ToList();
        var chillers = real.Where(f => f.Kind == FlagKind.ChillerFault).Select(f => f.TankId).Distinct().Count();
        return new SeasonYear(
            totals.Season, totals.Pooled, losses.Sum(l => l.Count), ByCause(real, losses),
            Typical.Over([.. real.Where(f => f.Kind is not (FlagKind.Silent or FlagKind.ReportLate or FlagKind.Tally or FlagKind.NotReady)).Select(f => Hours(f.LookBefore, f.OpenedAt))]),
            Typical.Over([.. flags.Select(f => Hours(f.OpenedAt, f.ActedAt))]),
            chillers, supplied, supplied > 0 && chillers <= supplied ? Releases.Survival.Of(chillers, supplied) : Releases.Survival.Unknown);
    }

    /// <summary>Each loss counts once: to the newest trouble of its tank that was on record then, or to none.</summary>
    private static IReadOnlyList<LossOfCause> ByCause(List<PastFlag> flags, IReadOnlyList<PastLoss> losses)
    {
        var byTank = flags.ToLookup(f => f.TankId);
        return [.. losses.Select(l => (Loss: l, Cause: CauseOf(l, byTank[l.TankId])))
            .GroupBy(l => l.Cause)
            .Select(g => new LossOfCause(g.Key, g.Sum(l => l.Loss.Count), g.Select(l => l.Loss.TankId).Distinct().Count()))
            .OrderBy(l => l.Cause is null).ThenByDescending(l => l.Count).ThenBy(l => l.Cause)];
    }

    private static TroubleCause? CauseOf(PastLoss loss, IEnumerable<PastFlag> flags) => flags
        .Where(f => f.OpenedAt - Around <= loss.At && loss.At <= (f.SettledAt ?? DateTime.MaxValue.AddDays(-2)) + Around)
        .OrderByDescending(f => f.Cause is not null and not TroubleCause.Unknown).ThenByDescending(f => f.OpenedAt)
        .Select(f => (TroubleCause?)(f.Cause ?? TroubleCause.Unknown)).FirstOrDefault();

    private static double? Hours(DateTime? from, DateTime? to) => to - from is { } span && span >= TimeSpan.Zero ? span.TotalHours : null;
}
