using Microsoft.AspNetCore.Identity;

namespace Tankside.Storage.People;

/// <summary>An adult with an account. Children have none, ever.</summary>
public sealed class Person : IdentityUser<Guid>
{
    public required string Name { get; set; }

    /// <summary>Language tag for mails and screens, "en" or "es".</summary>
    public string Language { get; set; } = "en";

    /// <summary>A made-up person of the demo season, whose password is printed: never let in outside Development.</summary>
    public bool IsDemo { get; set; }
}
