namespace Tankside.Hatchery.People;

/// <summary>Where a letter stands on its way.</summary>
public enum LetterState
{
    Waiting,

    /// <summary>In the hands of one portal. Found so after a crash, nobody can say whether the server took it.</summary>
    Sending,

    Sent,

    /// <summary>No mail server is set: it lies as a file in the data folder.</summary>
    KeptAsFile,

    /// <summary>It may have been sent. It is never sent again by itself, for a letter is never sent twice.</summary>
    Unsure,

    GivenUp,

    /// <summary>A mail server has refused the address for good, at once or by a report that came later.</summary>
    Bounced,
}

/// <summary>A letter on its way: written in the same transaction as what it tells, sent afterwards, so that a restart loses none.</summary>
public sealed class OutgoingLetter
{
    public Guid Id { get; init; }

    /// <summary>What the letter is about and to whom, e.g. "digest 2027-02-03 PROGRAMME PERSON": the same key is never written twice.</summary>
    public required string Key { get; init; }

    public Guid ProgrammeId { get; init; }

    public Guid? PersonId { get; init; }

    public required string To { get; init; }

    public required string Subject { get; set; }

    public required string Text { get; set; }

    public DateTime WrittenAt { get; init; }

    /// <summary>Not before this instant: a person's quiet hours, or the wait after a failure.</summary>
    public DateTime NotBefore { get; set; }

    public LetterState State { get; set; }

    public int Attempts { get; set; }

    /// <summary>Until when the portal that is sending it has it to itself.</summary>
    public DateTime? HeldUntil { get; set; }

    public DateTime? SentAt { get; set; }

    /// <summary>What the last failure was, without addresses.</summary>
    public string? Trouble { get; set; }

    public int Version { get; set; }
}
