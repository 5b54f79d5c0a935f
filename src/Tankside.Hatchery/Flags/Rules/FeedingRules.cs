using Tankside.Hatchery.Readings;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// First feeding and a break. Fry that have not learnt to eat before nobody is there to feed them are lost; told weeks ahead, the set point
/// or a holding tank still moves the date.
/// </summary>
public static class FeedingRules
{
    /// <summary>How far round the forecast breaks are looked for, days.</summary>
    private const int Reach = 60;

    public static Finding? SwimUpNearBreak(Situation s)
    {
        if (s.Development.SwimUp is not { } swimUp)
        {
            return null;
        }

        var seen = s.Record.Days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day;
        var notYet = s.Record.Days.LastOrDefault(d => d.Swimming == Share.None)?.Day;
        var worst = Breaks(s, seen ?? swimUp.High80)
            .Select(b => (Break: b, From: DaysToLearn(s, b.First)))
            .Select(x => (x.Break, x.From, Chance: seen is { } day ? Within(day, x.From, x.Break.Last) : Chance(swimUp, notYet, x.From, x.Break.Last)))
            .Where(x => x.Chance > s.Limits[Limits.Season.BreakChance])
            .OrderByDescending(x => x.Chance).ThenBy(x => x.Break.First)
            .FirstOrDefault();
        if (worst.Chance <= 0)
        {
            return null;
        }

        var evidence = new FeedingEvidence(
            s.Stage, seen is not null, seen ?? swimUp.Mid, seen ?? swimUp.Low80, seen ?? swimUp.High80, worst.From, worst.Break.First, worst.Break.Last,
            Math.Round(worst.Chance, 2));
        var near = s.Today >= worst.Break.First.AddDays(-(int)s.Limits[Limits.Season.BreakNear]);
        var clock = s.Record.Calendar.Clock;

        // It stands on the break: once a person has closed it with a plan, the same break is not told again each morning.
        return new Finding(
            FlagKind.FeedingNearBreak, near ? Urgency.Today : Urgency.ThisWeek, clock.Utc(worst.Break.First, default), evidence,
            Hazard.Around(clock.Utc(evidence.Mid, default), s.Limits[Limits.Season.UnfedHours], ShareLost(s, worst.Break, worst.Chance)));
    }

    private static double ShareLost(Situation s, (DateOnly First, DateOnly Last) closed, double chance)
    {
        var days = closed.Last.DayNumber - closed.First.DayNumber + 1;
        return chance * s.Limits[Limits.Season.UnfedShare] * Math.Min(1, days / s.Limits[Limits.Season.UnfedDays]);
    }

    /// <summary>Breaks that are not over yet, up to a while after the fry may swim.</summary>
    private static IEnumerable<(DateOnly First, DateOnly Last)> Breaks(Situation s, DateOnly swimUp)
    {
        var last = (swimUp > s.Today ? swimUp : s.Today).AddDays(Reach);
        return s.Record.Calendar.ClosedRuns(s.Today.AddDays(-Reach), last)
            .Where(b => b.Last >= s.Today && b.Last.DayNumber - b.First.DayNumber + 1 >= s.Limits[Limits.Season.BreakDays]);
    }

    /// <summary>The first of the school days that are needed before the break.</summary>
    private static DateOnly DaysToLearn(Situation s, DateOnly firstClosed)
    {
        var day = firstClosed;
        for (var (needed, back) = ((int)s.Limits[Limits.Season.DaysBeforeBreak], 0); needed > 0 && back < Reach; back++)
        {
            day = day.AddDays(-1);
            needed -= s.Record.Calendar.IsSchoolDay(day) ? 1 : 0;
        }

        return day;
    }

    private static double Within(DateOnly day, DateOnly from, DateOnly to) => from <= day && day <= to ? 1 : 0;

    /// <summary>
    /// The part of the forecast's distribution between two days; given that none swam on <paramref name="notYet"/>, of what comes after it.
    /// </summary>
    private static double Chance(StageForecast forecast, DateOnly? notYet, DateOnly from, DateOnly to)
    {
        var sd = Math.Max(forecast.SdDays, 0.5); // A day is the finest that anybody sees.
        double Until(DateOnly end) => Normal.Cdf((end.DayNumber + 0.5 - forecast.Mid.DayNumber) / sd);
        var gone = notYet is { } day ? Until(day) : 0;
        var start = Math.Max(Until(from.AddDays(-1)), gone);
        return gone < 0.999 ? Math.Max(0, Until(to) - start) / (1 - gone) : Within(notYet!.Value.AddDays(1), from, to);
    }
}
