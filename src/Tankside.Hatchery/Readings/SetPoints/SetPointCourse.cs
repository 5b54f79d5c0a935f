using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>From this day on the dial stands so.</summary>
public readonly record struct SetPointStep(DateOnly On, double C);

/// <summary>When a stage comes in a planned course: the middle and the days between which it falls four times in five.</summary>
/// <param name="Ahead">Days from the start of today to the middle.</param>
public sealed record PlannedStage(DateOnly Mid, DateOnly Low80, DateOnly High80, double Ahead, double SdDays, bool InRange);

/// <summary>
/// A course of the dial with what it leads to.
/// </summary>
/// <param name="Steps">Ascending; the first stands on the first day of the plan, the others are turns of the dial.</param>
/// <param name="Turns">Days on which the dial is turned.</param>
/// <param name="Hatch">Null when it is past, no model is known, or it would never come.</param>
/// <param name="SwimUp">As <paramref name="Hatch"/>.</param>
/// <param name="HatchOnClosedDay">The chance that half hatch on a day on which the school is closed.</param>
/// <param name="SwimUpInBadTime">The chance that half swim up too near a break, in one, or after the release.</param>
public sealed record SetPointCourse(
    IReadOnlyList<SetPointStep> Steps, int Turns, PlannedStage? Hatch, PlannedStage? SwimUp, double HatchOnClosedDay, double SwimUpInBadTime)
{
    /// <summary>What the dial says at the end.</summary>
    public double FinalC => Steps[^1].C;

    public double ColdestC => Steps.Min(s => s.C);

    /// <summary>Where the dial stands on a day: by the last step up to it; before the first, as the first.</summary>
    public static double On(IReadOnlyList<SetPointStep> steps, DateOnly day)
    {
        var c = steps[0].C;
        for (var i = 1; i < steps.Count && steps[i].On <= day; i++)
        {
            c = steps[i].C;
        }

        return c;
    }

    /// <summary>One temperature a day from <paramref name="first"/> to the day of the last step, or to the first where that is past.</summary>
    public static IReadOnlyList<Celsius> Daily(IReadOnlyList<SetPointStep> steps, DateOnly first)
    {
        var days = Math.Max(1, steps[^1].On.DayNumber - first.DayNumber + 1);
        return [.. Enumerable.Range(0, days).Select(i => new Celsius(On(steps, first.AddDays(i))))];
    }
}
