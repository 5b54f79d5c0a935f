using Tankside.Hatchery.Places;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Readings;

/// <summary>How likely a stage falls where a break makes trouble for it.</summary>
/// <param name="First">First closed day of the break.</param>
/// <param name="Last">Its last closed day.</param>
/// <param name="From">From this day on it would be trouble: the first of the school days that are needed before the break.</param>
/// <param name="Chance">Between 0 and 1.</param>
public sealed record BreakChance(DateOnly First, DateOnly Last, DateOnly From, double Chance);

/// <summary>When a stage comes, set against a school's closed days.</summary>
public static class BreakChances
{
    /// <summary>How far round a stage breaks are looked for, days.</summary>
    private const int Reach = 60;

    /// <summary>
    /// Every break that is not over yet, up to a while after the stage, with the chance that the stage falls into it or into the
    /// <paramref name="schoolDaysBefore"/> school days before it.
    /// </summary>
    /// <param name="seen">The day it was reported; then it is certain.</param>
    /// <param name="notYet">The last day on which it was reported not to have come.</param>
    /// <param name="breakDays">Closed days in a row from which a closure counts as a break.</param>
    public static IEnumerable<BreakChance> Of(
        StageForecast forecast, DateOnly? seen, DateOnly? notYet, SchoolCalendar calendar, DateOnly today, int breakDays, int schoolDaysBefore)
    {
        var until = seen ?? forecast.High80;
        return calendar.ClosedRuns(today.AddDays(-Reach), (until > today ? until : today).AddDays(Reach))
            .Where(b => b.Last >= today && b.Last.DayNumber - b.First.DayNumber + 1 >= breakDays)
            .Select(b => (Break: b, From: FirstNeeded(calendar, b.First, schoolDaysBefore)))
            .Select(x => new BreakChance(
                x.Break.First, x.Break.Last, x.From,
                seen is { } day ? Inside(day, x.From, x.Break.Last) : forecast.ChanceWithin(x.From, x.Break.Last, notYet)));
    }

    /// <summary>The chance that the stage comes on a day on which the school is closed, weekends counted too.</summary>
    public static double OnClosedDay(this StageForecast forecast, DateOnly? notYet, SchoolCalendar calendar)
    {
        var reach = (int)Math.Ceiling(4 * forecast.SdDays) + 1;
        return calendar.ClosedRuns(forecast.Mid.AddDays(-reach), forecast.Mid.AddDays(reach)).Sum(run => forecast.ChanceWithin(run.First, run.Last, notYet));
    }

    /// <summary>
    /// The part of the forecast's distribution between two days, both counted; given that it had not come on <paramref name="notYet"/>, of
    /// what comes after that day.
    /// </summary>
    public static double ChanceWithin(this StageForecast forecast, DateOnly from, DateOnly to, DateOnly? notYet)
    {
        var sd = Math.Max(forecast.SdDays, 0.5); // A day is the finest that anybody sees.
        double Until(DateOnly end) => Normal.Cdf((end.DayNumber + 0.5 - forecast.Mid.DayNumber) / sd);
        var gone = notYet is { } day ? Until(day) : 0;
        var start = Math.Max(Until(from.AddDays(-1)), gone);
        return gone < 0.999 ? Math.Max(0, Until(to) - start) / (1 - gone) : Inside(notYet!.Value.AddDays(1), from, to);
    }

    private static DateOnly FirstNeeded(SchoolCalendar calendar, DateOnly firstClosed, int schoolDays)
    {
        var day = firstClosed;
        for (var (needed, back) = (schoolDays, 0); needed > 0 && back < Reach; back++)
        {
            day = day.AddDays(-1);
            needed -= calendar.IsSchoolDay(day) ? 1 : 0;
        }

        return day;
    }

    private static double Inside(DateOnly day, DateOnly from, DateOnly to) => from <= day && day <= to ? 1 : 0;
}
