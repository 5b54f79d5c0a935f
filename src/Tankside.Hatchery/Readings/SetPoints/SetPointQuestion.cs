using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>What a plan has to keep to. The numbers are the programme's own.</summary>
/// <param name="LowC">Coldest set-point of the safe band, °C.</param>
/// <param name="HighC">Warmest set-point of the safe band, °C.</param>
/// <param name="LargestStepC">Largest change of the dial on one day, °C.</param>
/// <param name="BreakDays">Closed days in a row from which a closure counts as a break.</param>
/// <param name="SchoolDaysBefore">School days that fry need to learn to eat before a break.</param>
/// <param name="SwimUpWeight">How many hatches on a closed day weigh as much as one swim-up in a bad time.</param>
/// <param name="Alike">Chances that lie so near each other are taken as equal: the forecast does not know better.</param>
public sealed record SetPointRules(
    double LowC, double HighC, double LargestStepC, int BreakDays, int SchoolDaysBefore, double SwimUpWeight, double Alike);

/// <summary>One tank, and what is wanted of it.</summary>
public sealed record SetPointQuestion
{
    /// <summary>The day whose start the outlooks stand at.</summary>
    public required DateOnly Today { get; init; }

    /// <summary>From this day on somebody can turn the dial: today, or tomorrow when the school day is over.</summary>
    public required DateOnly FirstTurn { get; init; }

    /// <summary>Where the dial stands now, °C.</summary>
    public required double SetPointC { get; init; }

    /// <summary>The scale of the dial: it turns by whole °F, or by half °C.</summary>
    public required TemperatureUnit Dial { get; init; }

    /// <summary>Null when it is past, or no model is known.</summary>
    public required StageOutlook? Hatch { get; init; }

    /// <summary>Null when it is past, or no model is known.</summary>
    public required StageOutlook? SwimUp { get; init; }

    /// <summary>The last day on which none were seen hatched; what the model puts before it has not happened.</summary>
    public DateOnly? NoneHatchedOn { get; init; }

    /// <summary>The last day on which none were seen swimming.</summary>
    public DateOnly? NoneSwimmingOn { get; init; }

    public required SchoolCalendar Calendar { get; init; }

    public required SetPointRules Rules { get; init; }

    public required SetPointGoal Goal { get; init; }

    /// <summary>The day asked for; null for a goal that names none.</summary>
    public DateOnly? GoalDay { get; init; }

    /// <summary>Swim-up after this day would be too late.</summary>
    public DateOnly? ReleaseOn { get; init; }
}
