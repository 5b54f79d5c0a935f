namespace Tankside.Portal.Shell.Look;

/// <summary>
/// The look that somebody chose for the adults' pages on this device. Without a choice, and always on class pages (which set no cookie), the device's
/// own settings decide.
/// </summary>
public static class Looks
{
    public const string Light = "light", Dark = "dark", Contrast = "contrast";

    private const string Cookie = "look";

    public static IReadOnlyList<string> All { get; } = [Light, Dark, Contrast];

    /// <summary>Null for the device's own.</summary>
    public static string? Of(HttpContext context) => context.Request.Cookies[Cookie] is { } look && All.Contains(look) ? look : null;

    /// <summary>Kept for a year on this device; null forgets it.</summary>
    public static void Choose(HttpContext context, string? look)
    {
        if (look is null)
        {
            context.Response.Cookies.Delete(Cookie);
            return;
        }

        context.Response.Cookies.Append(Cookie, look, new CookieOptions
        {
            MaxAge = TimeSpan.FromDays(365),
            HttpOnly = true,
            IsEssential = true,
            SameSite = SameSiteMode.Lax,
            Secure = context.Request.IsHttps,
        });
    }
}
