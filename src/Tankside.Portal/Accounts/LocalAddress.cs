namespace Tankside.Portal.Accounts;

/// <summary>Where to go after signing in: only ever a page of our own.</summary>
public static class LocalAddress
{
    /// <summary><paramref name="to"/> when it is a path of this portal, else the first page. "//host" and "/\host" lead away and are refused.</summary>
    public static string OrHome(string? to) =>
        to is ['/', ..] and not ['/', '/' or '\\', ..] && !to.Any(char.IsControl) ? to : "/";
}
