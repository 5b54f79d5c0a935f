using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>The account of a tank's fish.</summary>
public static class TallyRules
{
    /// <summary>
    /// More left than ever came, or after a count or the closing more is missing than counting errs by. Nothing dies of it; somebody has to
    /// look for the line that was forgotten before the agency is told.
    /// </summary>
    public static Finding? DoesNotBalance(TankRecord record, DateTime now)
    {
        if (record.Ledger is not { Balance: { In: > 0 } balance } ledger)
        {
            return null;
        }

        var limit = record.Limits[Limits.Season.TallyShare];
        var looked = ledger.CountedAt is not null || ledger.ClosedAt is not null;
        if (balance.Unaccounted >= 0 && (!looked || balance.Unaccounted <= limit * balance.In))
        {
            return null;
        }

        var evidence = new TallyEvidence(
            StageOf(record, now), balance.In, balance.Unaccounted, ledger.CountedAt, ledger.ClosedAt is not null, limit);
        return new Finding(FlagKind.Tally, Urgency.ThisWeek, ledger.ChangedAt, evidence, Hazard.Around(ledger.ChangedAt, hours: 168, share: 0));
    }

    /// <summary>How they are counted depends on what they are by now; of a tank whose lot is not known, eggs.</summary>
    private static LifeStage StageOf(TankRecord record, DateTime now) => record.Lot is not null
        ? record.DevelopmentOn(record.Calendar.Clock.Day(now)).Stage
        : LifeStage.Egg;
}
