using Tankside.Hatchery.People;

namespace Tankside.Portal.People;

/// <summary>What is asked about a new key.</summary>
public sealed class KeyForm
{
    public string? Name { get; set; }

    public ApiKeyRole Role { get; set; }

    /// <summary>"all", or "some" of the list.</summary>
    public string Reach { get; set; } = "all";

    /// <summary>Ids of the tanks ticked; null when none is.</summary>
    public string[]? Tanks { get; set; }

    /// <summary>Ticked tanks beside "all": a key for more than was meant must not come of it.</summary>
    public bool IsContradiction => Reach != "some" && Tanks is { Length: > 0 };

    public IReadOnlyCollection<Guid>? Wanted =>
        Reach == "some" ? [.. (Tanks ?? []).Select(t => Guid.TryParse(t, out var id) ? id : Guid.Empty)] : null;
}

/// <summary>What is asked about the key that is to be replaced.</summary>
public sealed class RotateForm
{
    /// <summary>"on" while the old one goes on, "stop" to stop it at once.</summary>
    public string Old { get; set; } = "on";
}
