namespace Tankside.Hatchery.People;

/// <summary>What a person does in a programme.</summary>
public enum Role
{
    Teacher,
    Coordinator,
    KitHand,
    ProgrammeLead,
    AgencyContact,
}

/// <summary>A person's place in a programme. A teacher belongs to one school; the others to the whole programme.</summary>
public sealed class Membership
{
    public Guid Id { get; init; }

    public Guid PersonId { get; init; }

    public Guid ProgrammeId { get; init; }

    public Role Role { get; set; }

    public Guid? SchoolId { get; set; }

    /// <summary>Which background check was shown, e.g. "state volunteer check"; null for none. Nothing else of it is kept.</summary>
    public string? CheckKind { get; set; }

    /// <summary>The last day on which that check holds.</summary>
    public DateOnly? CheckedUntil { get; set; }
}

/// <summary>An invitation by link. Only the hash of its secret is kept; it works once and for a limited time.</summary>
public sealed class Invitation
{
    public static readonly TimeSpan Lifetime = TimeSpan.FromDays(14);

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Email { get; init; }

    /// <summary>The adult's name, where whoever invited them gave it.</summary>
    public string? Name { get; init; }

    public Role Role { get; init; }

    public Guid? SchoolId { get; init; }

    /// <summary>Replaced when a letter is sent again: only the newest link works.</summary>
    public required string SecretHash { get; set; }

    public DateTime InvitedAt { get; init; }

    public Guid InvitedBy { get; init; }

    public DateTime ExpiresAt { get; init; }

    public DateTime? AcceptedAt { get; set; }

    public DateTime? WithdrawnAt { get; set; }

    public int Version { get; set; }

    public bool IsOpenAt(DateTime now) => AcceptedAt is null && WithdrawnAt is null && now < ExpiresAt;
}

/// <summary>The one-time link by which a programme's first lead sets it up.</summary>
public sealed class SetUpLink
{
    public static readonly TimeSpan Lifetime = TimeSpan.FromHours(24);

    public Guid Id { get; init; }

    /// <summary>Kept readable for its 24 hours: a second start of the same installation prints the same link.</summary>
    public required string Secret { get; init; }

    public DateTime ExpiresAt { get; init; }

    public DateTime? UsedAt { get; set; }

    /// <summary>True for one that whoever runs the installation asked for, to make a further programme beside those there are.</summary>
    public bool ForAnother { get; init; }

    public int Version { get; set; }
}
