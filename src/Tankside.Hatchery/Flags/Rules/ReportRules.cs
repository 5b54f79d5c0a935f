using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>The report of a release, which the permit asks for.</summary>
public static class ReportRules
{
    /// <summary>Nobody has said that it was sent, and its last day is over. No fish die of it; the room may lose next year's eggs.</summary>
    public static Finding? NotSent(TankRecord record, DateTime now)
    {
        if (record.Unreported is not { } release)
        {
            return null;
        }

        var clock = record.Calendar.Clock;
        var on = clock.Day(release.At);
        var due = on.AddDays((int)record.Limits[Limits.Season.ReportDays]);
        return clock.Day(now) <= due ? null : new Finding(
            FlagKind.ReportLate, Urgency.ThisWeek, release.At, new ReportEvidence(StageOf(record, on), on, due, release.Fish, release.Permit),
            Hazard.Around(release.At, hours: 168, share: 0));
    }

    /// <summary>Fry are what is released, unless somebody had said by that day how far the fish were.</summary>
    private static LifeStage StageOf(TankRecord record, DateOnly on)
    {
        var then = record.AsOf(on.AddDays(1));
        return record.Lot is not null && then.Days.Any(d => (d.Hatched ?? d.Swimming) is not null)
            ? then.DevelopmentOn(on).Stage
            : LifeStage.Fry;
    }
}
