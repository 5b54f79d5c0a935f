using Tankside.Hatchery.People;

namespace Tankside.Portal.People;

/// <summary>What is asked about a new key.</summary>
public sealed class KeyForm
{
    public ApiKeyRole Role { get; set; }

    /// <summary>"all", or "some" of the list.</summary>
    public string Reach { get; set; } = "all";

    /// <summary>Ids of the tanks ticked.</summary>
    public List<string> Tanks { get; set; } = [];

    public IReadOnlyCollection<Guid>? Wanted =>
        Reach == "some" ? [.. Tanks.Select(t => Guid.TryParse(t, out var id) ? id : Guid.Empty)] : null;
}

/// <summary>What is asked about the key that is to be replaced.</summary>
public sealed class RotateForm
{
    /// <summary>"on" while the old one goes on, "stop" to stop it at once.</summary>
    public string Old { get; set; } = "on";
}
