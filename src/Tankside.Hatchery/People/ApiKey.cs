namespace Tankside.Hatchery.People;

/// <summary>What an API key may do: a logger adds readings, a coordinator's program reads the round and the totals.</summary>
public enum ApiKeyRole
{
    Logger,
    Coordinator,
}

/// <summary>A key for a logger or another program. The key itself is shown once; only its hash is kept.</summary>
public sealed class ApiKey
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public ApiKeyRole Role { get; init; }

    /// <summary>What uses it, as whoever had it made calls it; null for one made before names were asked.</summary>
    public string? Name { get; init; }

    public required string SecretHash { get; init; }

    /// <summary>True when the key serves every tank of its programme, also those added later.</summary>
    public bool AllTanks { get; init; }

    /// <summary>The tanks the key is bound to when <see cref="AllTanks"/> is false.</summary>
    public List<Guid> TankIds { get; init; } = [];

    public DateTime IssuedAt { get; init; }

    public DateTime? RevokedAt { get; set; }

    /// <summary>When it was used last, to within <see cref="UseIsNotedEvery"/>; null for never, or for one not used since uses are noted.</summary>
    public DateTime? LastUsedAt { get; init; }

    /// <summary>A logger calls by the minute; a write for each call would serve nobody.</summary>
    public static readonly TimeSpan UseIsNotedEvery = TimeSpan.FromHours(1);

    public bool Serves(Guid tankId) => AllTanks || TankIds.Contains(tankId);
}
