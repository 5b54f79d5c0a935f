namespace Tankside.Hatchery.Places;

/// <summary>
/// An address that a calendar program reads a programme's dates from, without signing in. Whoever has it can read them, so it can be
/// revoked. The address is shown once; only its hash is kept.
/// </summary>
public sealed class CalendarFeed
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    /// <summary>The school whose tanks it shows; with <see cref="TankId"/> null too, all of the programme.</summary>
    public Guid? SchoolId { get; init; }

    /// <summary>The one tank that it shows.</summary>
    public Guid? TankId { get; init; }

    public required string SecretHash { get; init; }

    public DateTime IssuedAt { get; init; }

    /// <summary>The person who may revoke it, beside the programme's coordinators and leads.</summary>
    public Guid IssuedBy { get; init; }

    public DateTime? RevokedAt { get; set; }
}
