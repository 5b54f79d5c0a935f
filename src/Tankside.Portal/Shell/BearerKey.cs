namespace Tankside.Portal.Shell;

/// <summary>The key that a program sends along: <c>Authorization: Bearer KEY</c>.</summary>
public static class BearerKey
{
    private const string Prefix = "Bearer ";

    /// <summary>Null when none was sent.</summary>
    public static string? Of(HttpRequest request) =>
        request.Headers.Authorization.ToString() is var header && header.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase)
            ? header[Prefix.Length..].Trim()
            : null;
}
