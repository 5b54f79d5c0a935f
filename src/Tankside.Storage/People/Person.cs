using Microsoft.AspNetCore.Identity;

namespace Tankside.Storage.People;

/// <summary>An adult with an account. Children have none, ever.</summary>
public sealed class Person : IdentityUser<Guid>
{
    public required string Name { get; set; }

    /// <summary>Language tag for mails and screens, "en" or "es".</summary>
    public string Language { get; set; } = "en";

    /// <summary>Local hours in which no mail comes, except what was asked for just now; null for none.</summary>
    public TimeOnly? QuietFrom { get; set; }

    public TimeOnly? QuietTo { get; set; }

    public bool WantsDigest { get; set; } = true;

    /// <summary>A mail at once when a tank cannot wait.</summary>
    public bool WantsUrgent { get; set; } = true;

    /// <summary>The programme that somebody in several chose to work in last.</summary>
    public Guid? WorksIn { get; set; }

    /// <summary>A made-up person of the demo season, whose password is printed: never let in outside Development.</summary>
    public bool IsDemo { get; set; }
}
