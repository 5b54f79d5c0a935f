using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>More dead than the tank's own past and its lot's siblings explain: many in two days, or a slow rise.</summary>
public static class LossRules
{
    /// <summary>A count older than this many days is history, not an alarm.</summary>
    private const int Stale = 7;

    public static Finding? DieOff(Situation s)
    {
        var counts = Counts(s.Record);
        if (counts.Count == 0 || s.Today.DayNumber - counts[^1].Day.DayNumber > Stale)
        {
            return null;
        }

        var usual = UsualLoss.Of(s.Limits, s.Record.Siblings, s.Record.Lot!.DeliveredOn, UsualLoss.HatchOf(s.Development));
        return LossChart.Judge(counts, s.Record.Fish, usual, s.Limits) is { } verdict ? Found(s, verdict) : null;
    }

    /// <summary>The days on which somebody counted, ascending.</summary>
    public static List<LossCount> Counts(TankRecord record) =>
        [.. record.Days.Where(d => d.Dead is not null).Select(d => new LossCount(d.Day, d.Dead!.Value))];

    private static Finding Found(Situation s, LossVerdict v)
    {
        var at = s.Told.LastOrDefault(r => HasCount(r.Seen))?.At ?? s.Record.Calendar.WindowOf(v.LastDay).Closes;
        var evidence = new LossEvidence(s.Stage, v.Dead, v.Days, v.LastDay, v.Expected, v.Tail, s.Record.Fish, v.Rising);
        var (hours, share) = v.Rising
            ? (Limits.Losses.SlowRiseHours, Limits.Losses.SlowRiseShare)
            : (Limits.Losses.DieOffHours, Limits.Losses.DieOffShare);
        return new Finding(
            FlagKind.DieOff, v.Rising ? Urgency.Today : Urgency.ActNow, at, evidence, Hazard.Around(at, s.Limits[hours], s.Limits[share]));
    }

    internal static bool HasCount(Observation seen) => (seen.DeadEggs ?? seen.DeadAlevins ?? seen.DeadFry) is not null;
}
