namespace Tankside.Hatchery.People;

/// <summary>A browser in which somebody is signed in. It holds no address and nothing that tells two devices of one kind apart.</summary>
public sealed class OpenSession
{
    public Guid Id { get; init; }

    public Guid PersonId { get; init; }

    /// <summary>The account's stamp that the session was begun or renewed with: a new password, another role and the like make it another one, and the session is over.</summary>
    public required string Stamp { get; set; }

    public DateTime BeganAt { get; init; }

    /// <summary>To the hour, so that reading a page writes nothing.</summary>
    public DateTime LastUsedAt { get; set; }

    /// <summary>"Firefox"; null where the browser names none that is known.</summary>
    public string? Browser { get; init; }

    /// <summary>"Windows"; null where the browser names none that is known.</summary>
    public string? System { get; init; }
}
