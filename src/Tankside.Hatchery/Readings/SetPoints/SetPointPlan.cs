namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>What a plan of set-points is made for.</summary>
public enum SetPointGoal
{
    /// <summary>Hatch on school days, swim-up clear of a break and before the release.</summary>
    ClearOfClosedDays,

    /// <summary>Half hatched on a day that somebody asked for.</summary>
    HatchOn,

    /// <summary>Half swimming up by a day that somebody asked for.</summary>
    SwimUpBy,
}

/// <summary>The set-points that a tank is steered by, day by day, as somebody decided to keep them. A newer plan ends the older.</summary>
public sealed class SetPointPlan
{
    public Guid Id { get; init; }

    public Guid TankId { get; init; }

    public DateTime MadeAt { get; init; }

    /// <summary>The person who decided.</summary>
    public Guid MadeBy { get; init; }

    public SetPointGoal Goal { get; init; }

    /// <summary>The day asked for; null where the goal names none.</summary>
    public DateOnly? GoalDay { get; init; }

    /// <summary>Each change of the dial as JSON, ascending: the day and the set-point from then on, °C.</summary>
    public required string Steps { get; init; }

    public DateTime? EndedAt { get; set; }

    public Guid? EndedBy { get; set; }

    public int Version { get; set; }

    public IReadOnlyList<SetPointStep> Course() => StoredSteps.Read(Steps);
}
