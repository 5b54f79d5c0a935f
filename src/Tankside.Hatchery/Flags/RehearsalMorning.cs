namespace Tankside.Hatchery.Flags;

/// <summary>
/// One made-up morning that somebody works to learn the round. It holds no tank, no reading and no fish of the programme: the whole morning
/// is made again from its seed, so nothing of it can reach a total.
/// </summary>
public sealed class RehearsalMorning
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public int Seed { get; init; }

    public Guid StartedBy { get; init; }

    public Guid WorkedBy { get; init; }

    public DateTime StartedAt { get; init; }

    /// <summary>Codes of the made-up tanks in the order in which they were called.</summary>
    public IReadOnlyList<string> Called { get; set; } = [];

    public DateTime? FinishedAt { get; set; }

    public int Version { get; set; }
}
