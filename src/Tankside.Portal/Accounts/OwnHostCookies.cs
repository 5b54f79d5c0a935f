using Microsoft.AspNetCore.Authentication.Cookies;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Over HTTPS the session's cookies carry the prefix "__Host-": a browser then takes them only from this very host, only encrypted and only for
/// the whole of it, so that no neighbour under the same domain can put its own in their place.
/// </summary>
public sealed class OwnHostCookies : ICookieManager
{
    private readonly ChunkingCookieManager inner = new();

    /// <summary>Without HTTPS, as in a trial on one's own machine, a browser would refuse the prefix.</summary>
    public static string Name(HttpContext context, string name) => context.Request.IsHttps ? $"__Host-{name}" : name;

    public string? GetRequestCookie(HttpContext context, string key) => inner.GetRequestCookie(context, Name(context, key));

    public void AppendResponseCookie(HttpContext context, string key, string? value, CookieOptions options) =>
        inner.AppendResponseCookie(context, Name(context, key), value, options);

    public void DeleteCookie(HttpContext context, string key, CookieOptions options) => inner.DeleteCookie(context, Name(context, key), options);
}
