namespace Tankside.Hatchery.Places;

/// <summary>A school, room or tank that was taken out of the register while nothing hung on it, kept so that it can be put back.</summary>
public sealed class TakenOutPlace
{
    /// <summary>How long it can be put back.</summary>
    public static readonly TimeSpan Kept = TimeSpan.FromDays(30);

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public PlaceThing Thing { get; init; }

    public required string Name { get; init; }

    /// <summary>The rows as JSON.</summary>
    public required string Content { get; init; }

    public DateTime TakenAt { get; init; }

    public Guid TakenBy { get; init; }
}
