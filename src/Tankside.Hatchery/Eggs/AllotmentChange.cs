namespace Tankside.Hatchery.Eggs;

/// <summary>One change of what a tank is promised, so that a change of the order can be traced to the room that caused it.</summary>
public sealed class AllotmentChange
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    /// <summary>The lot promised before; null when nothing was.</summary>
    public Guid? LotBefore { get; init; }

    /// <summary>The lot promised from now on; null when nothing is.</summary>
    public Guid? LotAfter { get; init; }

    public int EggsBefore { get; init; }

    public int EggsAfter { get; init; }

    public DateOnly? DayBefore { get; init; }

    public DateOnly? DayAfter { get; init; }

    public DateTime At { get; init; }

    public Guid By { get; init; }

    public string? Why { get; init; }
}
