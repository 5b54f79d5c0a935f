using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Hatch before the interval that development allows: the lot's mean temperature, its dates or the thermometer are off.</summary>
public static class EarlyHatchRules
{
    /// <summary>
    /// The first hatch lies before the 2.5% start of the interval. It is held against the forecast of that very day: a later one has seen the
    /// warmth of the days since, and none begins before its own day. What siblings had shown by then is in it: a lot whose dates were wrong is
    /// told by its first tanks, not by every one of them.
    /// </summary>
    public static Finding? HatchBeforeItsTime(Situation s)
    {
        var days = s.Record.Days;
        var swims = days.Any(d => d.Swimming >= Share.Half);
        if (swims || days.FirstOrDefault(ShowsHatch) is not { } first || s.Today.DayNumber - first.Day.DayNumber > s.Limits[Limits.Season.EarlyHatchDays])
        {
            return null;
        }

        var then = s.Record.AsOf(first.Day).DevelopmentOn(first.Day);
        var ahead = first.Hatched >= Share.Half ? 0 : (int)s.Limits[Limits.Season.FirstBeforeHalf];
        if (then.Hatch is not { } hatch || first.Day.AddDays(ahead) >= hatch.Low95)
        {
            return null;
        }

        var evidence = new EarlyHatchEvidence(s.Stage, first.Day, hatch.Mid, hatch.Low95);
        var hazard = Hazard.Around(first.FirstAt, s.Limits[Limits.Season.EarlyHatchHours], s.Limits[Limits.Season.EarlyHatchShare]);
        return new Finding(FlagKind.EarlyHatch, Urgency.ThisWeek, first.FirstAt, evidence, hazard);
    }

    private static bool ShowsHatch(TankDay day) =>
        day.Hatched >= Share.Some || day.Swimming >= Share.Some || day.DeadAlevins > 0 || day.DeadFry > 0;
}
