using System.Security.Claims;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.DataProtection;

namespace Tankside.Portal.Accounts;

/// <summary>What a page tells after something was done.</summary>
/// <param name="Link">A link to hand on, shown once; it must not stand in an address, where histories and logs would keep it.</param>
public sealed record Notice(bool Good, string Text, string? Link = null);

/// <summary>Carries one notice over the redirect that follows a form: an encrypted cookie for two minutes, gone when it is shown.</summary>
public sealed class CarriedNotice(IDataProtectionProvider protection)
{
    private const string CookieName = "tankside-notice";

    private static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(2);

    private readonly ITimeLimitedDataProtector protector = protection.CreateProtector("Tankside.Notice").ToTimeLimitedDataProtector();

    /// <param name="signedOut">True when this answer also ends the session; otherwise only the same person may read the notice.</param>
    public void Carry(HttpContext context, Notice notice, bool signedOut = false)
    {
        var text = JsonSerializer.Serialize(new Carried(notice, signedOut ? null : Reader(context.User)));
        context.Response.Cookies.Append(OwnHostCookies.Name(context, CookieName), protector.Protect(text, Lifetime), Options(context));
    }

    /// <summary>The notice that came along, once.</summary>
    public Notice? Take(HttpContext context)
    {
        if (context.Request.Cookies[OwnHostCookies.Name(context, CookieName)] is not { } cookie)
        {
            return null;
        }

        context.Response.Cookies.Delete(OwnHostCookies.Name(context, CookieName), Options(context));
        try
        {
            var carried = JsonSerializer.Deserialize<Carried>(protector.Unprotect(cookie));
            return carried is not null && carried.Reader == Reader(context.User) ? carried.Notice : null;
        }
        catch (Exception e) when (e is CryptographicException or JsonException)
        {
            return null;
        }
    }

    private static Guid? Reader(ClaimsPrincipal user) =>
        Guid.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), out var id) ? id : null;

    private static CookieOptions Options(HttpContext context) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        MaxAge = Lifetime,
        IsEssential = true,
    };

    private sealed record Carried(Notice Notice, Guid? Reader);
}
