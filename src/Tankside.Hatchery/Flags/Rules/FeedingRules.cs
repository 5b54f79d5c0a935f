using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// First feeding and a break. Fry that have not learnt to eat before nobody is there to feed them are lost; told weeks ahead, the set point
/// or a holding tank still moves the date.
/// </summary>
public static class FeedingRules
{
    public static Finding? SwimUpNearBreak(Situation s)
    {
        if (s.Development.SwimUp is not { } swimUp)
        {
            return null;
        }

        var seen = s.Record.Days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day;
        var notYet = s.Record.Days.LastOrDefault(d => d.Swimming == Share.None)?.Day;
        var worst = BreakChances.Of(
                swimUp, seen, notYet, s.Record.Calendar, s.Today,
                (int)s.Limits[Limits.Season.BreakDays], (int)s.Limits[Limits.Season.DaysBeforeBreak])
            .Where(b => b.Chance > s.Limits[Limits.Season.BreakChance])
            .OrderByDescending(b => b.Chance).ThenBy(b => b.First)
            .FirstOrDefault();
        if (worst is null)
        {
            return null;
        }

        var evidence = new FeedingEvidence(
            s.Stage, seen is not null, seen ?? swimUp.Mid, seen ?? swimUp.Low80, seen ?? swimUp.High80, worst.From, worst.First, worst.Last,
            Math.Round(worst.Chance, 2));
        var near = s.Today >= worst.First.AddDays(-(int)s.Limits[Limits.Season.BreakNear]);
        var clock = s.Record.Calendar.Clock;

        // It stands on the break: once a person has closed it with a plan, the same break is not told again each morning.
        return new Finding(
            FlagKind.FeedingNearBreak, near ? Urgency.Today : Urgency.ThisWeek, clock.Utc(worst.First, default), evidence,
            Hazard.Around(clock.Utc(evidence.Mid, default), s.Limits[Limits.Season.UnfedHours], ShareLost(s, worst)));
    }

    private static double ShareLost(Situation s, BreakChance closed)
    {
        var days = closed.Last.DayNumber - closed.First.DayNumber + 1;
        return closed.Chance * s.Limits[Limits.Season.UnfedShare] * Math.Min(1, days / s.Limits[Limits.Season.UnfedDays]);
    }
}
