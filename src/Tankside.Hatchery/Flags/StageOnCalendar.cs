using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>One stage of one tank set against its school's days.</summary>
/// <param name="SeenOn">The day half were reported to have reached it; then the forecast is history.</param>
/// <param name="ClosedChance">The chance that it falls on a closed day, weekends counted too; 0 once it was seen.</param>
/// <param name="Break">The break that is likeliest to make trouble for it, where that is likelier than the programme's limit.</param>
public sealed record StageOnCalendar(StageForecast Forecast, DateOnly? SeenOn, double ClosedChance, BreakChance? Break)
{
    /// <summary>Hatching in a break: nobody sees the shells that foul the water, nor a filter that clogs.</summary>
    public static StageOnCalendar? Hatch(DevelopmentNow now, IReadOnlyList<TankDay> days, SchoolCalendar calendar, DateOnly today, LimitSet limits) =>
        Of(now.Hatch, now.HalfHatchedOn, NotYet(days, d => d.Hatched), calendar, today, limits, schoolDaysBefore: 0);

    /// <summary>Swim-up in a break or just before it: fry that have not learnt to eat are left alone.</summary>
    public static StageOnCalendar? SwimUp(DevelopmentNow now, IReadOnlyList<TankDay> days, SchoolCalendar calendar, DateOnly today, LimitSet limits) =>
        Of(now.SwimUp, days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day, NotYet(days, d => d.Swimming), calendar, today, limits,
            (int)limits[Limits.Season.DaysBeforeBreak]);

    private static StageOnCalendar? Of(
        StageForecast? forecast, DateOnly? seen, DateOnly? notYet, SchoolCalendar calendar, DateOnly today, LimitSet limits, int schoolDaysBefore)
    {
        if (forecast is null)
        {
            return null;
        }

        var worst = BreakChances.Of(forecast, seen, notYet, calendar, today, (int)limits[Limits.Season.BreakDays], schoolDaysBefore)
            .Where(b => b.Chance > limits[Limits.Season.BreakChance])
            .OrderByDescending(b => b.Chance).ThenBy(b => b.First)
            .FirstOrDefault();
        return new StageOnCalendar(forecast, seen, seen is null ? forecast.OnClosedDay(notYet, calendar) : 0, worst);
    }

    private static DateOnly? NotYet(IReadOnlyList<TankDay> days, Func<TankDay, Share?> of) => days.LastOrDefault(d => of(d) == Share.None)?.Day;
}
