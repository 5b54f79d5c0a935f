namespace Tankside.Hatchery.People;

/// <summary>Until when somebody has read what happened in a programme.</summary>
public sealed class NewsSeen
{
    public Guid PersonId { get; init; }

    public Guid ProgrammeId { get; init; }

    public DateTime At { get; set; }
}
