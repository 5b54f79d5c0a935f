namespace Tankside.Hatchery.Places;

/// <summary>What happened to a whole area.</summary>
public enum SweepReason
{
    /// <summary>Buildings shut with no notice: nobody is there to read.</summary>
    Snow,

    PowerCut,

    Flood,

    Other,
}

/// <summary>One mark over every school of an area, made once, instead of forty tanks one by one.</summary>
public sealed class AreaSweep
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    /// <summary>The area as schools name it; empty for the whole programme.</summary>
    public required string Area { get; init; }

    public SweepReason Reason { get; init; }

    public DateTime From { get; init; }

    /// <summary>When it is expected to be over; null while nobody knows.</summary>
    public DateTime? Until { get; set; }

    public string? Note { get; init; }

    public Guid MarkedBy { get; init; }

    public DateTime MarkedAt { get; init; }

    public DateTime? EndedAt { get; set; }

    public Guid? EndedBy { get; set; }

    public int Version { get; set; }

    public bool Covers(string area, DateTime instant) =>
        (Area.Length == 0 || string.Equals(Area, area, StringComparison.Ordinal))
        && From <= instant && instant < (EndedAt ?? Until ?? DateTime.MaxValue);
}

/// <summary>What an adult at the school answered.</summary>
public enum SweepAnswer
{
    AllWell,
    PowerOff,
    Trouble,
    NobodyThere,
}

/// <summary>One adult asked about one school, and the answer when it came. The link in the message opens this and nothing else.</summary>
public sealed class SweepReply
{
    public Guid Id { get; init; }

    public Guid SweepId { get; init; }

    public Guid SchoolId { get; init; }

    public Guid? PersonId { get; init; }

    /// <summary>Hash of the secret in the link.</summary>
    public required string SecretHash { get; init; }

    public DateTime AskedAt { get; init; }

    public DateTime? AnsweredAt { get; set; }

    public SweepAnswer? Answer { get; set; }

    public string? Note { get; set; }

    public int Version { get; set; }
}
