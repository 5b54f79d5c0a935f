namespace Tankside.Hatchery.Seasons;

/// <summary>One rearing year of a programme, from the first egg to the last release report.</summary>
public sealed class Season
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Name { get; set; }

    public DateOnly StartsOn { get; set; }

    public DateOnly EndsOn { get; set; }

    public int Version { get; set; }
}
