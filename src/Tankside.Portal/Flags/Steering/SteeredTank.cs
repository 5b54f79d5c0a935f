using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Places;

namespace Tankside.Portal.Flags.Steering;

/// <summary>A tank's question to the planner.</summary>
public static class SteeredTank
{
    public static SetPointAnswer Ask(
        TankPlace place, DevelopmentNow development, IReadOnlyList<TankDay> days, DateTime now, SetPointGoal goal, DateOnly? goalDay, DateOnly? releaseOn)
    {
        if (development.Hatch is null && development.SwimUp is null)
        {
            return new NothingToPlan(WhyNothing.NoModel);
        }

        var today = place.Calendar.Clock.Day(now);

        // After the bell nobody is at the dial any more.
        var over = place.Calendar.IsSchoolDay(today) && place.Calendar.WindowOf(today).Closes <= now;
        return SetPointPlanner.Plan(new SetPointQuestion
        {
            Today = today,
            FirstTurn = over ? today.AddDays(1) : today,
            SetPointC = place.Tank.SetPointC,
            Dial = place.Tank.UsualUnit,
            Hatch = development.Stage == LifeStage.Egg ? development.Hatch?.Outlook : null,
            SwimUp = development.Stage == LifeStage.Fry ? null : development.SwimUp?.Outlook,
            NoneHatchedOn = days.LastOrDefault(d => d.Hatched == Share.None)?.Day,
            NoneSwimmingOn = days.LastOrDefault(d => d.Swimming == Share.None)?.Day,
            Calendar = place.Calendar,
            Rules = Limits.SetPoints.RulesOf(place.Limits),
            Goal = goal,
            GoalDay = goalDay,
            ReleaseOn = releaseOn,
        });
    }
}
