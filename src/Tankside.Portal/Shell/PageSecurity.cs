using System.Security.Cryptography;
using Microsoft.AspNetCore.Antiforgery;

namespace Tankside.Portal.Shell;

/// <summary>The nonce of one response: the only inline script that may run is the one that carries it.</summary>
public sealed class Nonce
{
    public string Value { get; } = Convert.ToBase64String(RandomNumberGenerator.GetBytes(16));
}

/// <summary>How a class page's outbox knows the portal's own answers from those of a filter or a sign-in page between them.</summary>
public static class ClassMark
{
    /// <summary>On every answer under /t and /run.</summary>
    public const string Own = "Tankside-Answer";

    /// <summary>On what the outbox itself sends.</summary>
    public const string Outbox = "Tankside-Outbox";

    /// <summary>On the answer to a form that was taken: the address to go on to.</summary>
    public const string Next = "Tankside-Next";
}

/// <summary>Headers that keep pages to our own scripts, styles and frames.</summary>
public static class PageSecurity
{
    /// <summary>Class pages, drivers' sheets and answers by link: no script but our own files, no frame, nothing loaded from another host.</summary>
    private const string ClassPolicy =
        "default-src 'none'; script-src 'self'; worker-src 'self'; connect-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>
    /// What has to carry a form's token and does not is refused here, before anything reads it. An address mapped with a form of its own asks for it
    /// with <see cref="RequireAntiforgeryTokenAttribute"/>; pages do so by themselves.
    /// </summary>
    public static IApplicationBuilder UseFormTokens(this WebApplication app) => app.UseAntiforgery().Use((context, next) =>
    {
        if (context.Features.Get<IAntiforgeryValidationFeature>() is not { IsValid: false }) return next(context);
        context.Response.StatusCode = StatusCodes.Status400BadRequest;
        return Task.CompletedTask;
    });

    public static IApplicationBuilder UsePageSecurity(this WebApplication app) => app.Use((context, next) =>
    {
        var headers = context.Response.Headers;
        // A trial on one's own machine must not bind its browser to HTTPS for a year.
        if (context.Request.IsHttps && !app.Environment.IsDevelopment())
        {
            headers.StrictTransportSecurity = "max-age=31536000; includeSubDomains";
        }

        context.Response.OnStarting(KeepNothing, context);
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers.ContentSecurityPolicy = context.Request.Path.StartsWithSegments("/t", StringComparison.Ordinal)
            || context.Request.Path.StartsWithSegments("/sweep", StringComparison.Ordinal)
            || context.Request.Path.StartsWithSegments("/run", StringComparison.Ordinal)
            || context.Request.Path.StartsWithSegments("/mail", StringComparison.Ordinal)
            ? ClassPolicy
            : PagePolicy(context.RequestServices.GetRequiredService<Nonce>().Value);
        if (context.Request.Path.StartsWithSegments("/t", StringComparison.Ordinal) || context.Request.Path.StartsWithSegments("/run", StringComparison.Ordinal))
        {
            headers[ClassMark.Own] = "1";
        }

        return next(context);
    });

    /// <summary>
    /// Class pages come over slow Wi-Fi, so they are compressed. Pages of people who sign in are not: they carry a token beside what others
    /// may have written, and how well that compresses could be measured from outside.
    /// </summary>
    public static IApplicationBuilder UseClassCompression(this IApplicationBuilder app) =>
        app.UseWhen(c => c.Request.Path.StartsWithSegments("/t", StringComparison.Ordinal), classes => classes.UseResponseCompression());

    /// <summary>What only somebody signed in is served lies in no cache of a shared machine, unless the address says otherwise itself.</summary>
    private static Task KeepNothing(object state)
    {
        var context = (HttpContext)state;
        if (context.User.Identity is { IsAuthenticated: true } && context.Response.Headers.CacheControl.Count == 0)
        {
            context.Response.Headers.CacheControl = "private, no-store";
        }

        return Task.CompletedTask;
    }

    /// <summary>Styles stay open to inline ones: the component library writes its theme as style elements without a nonce.</summary>
    private static string PagePolicy(string nonce) =>
        $"default-src 'self'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self'; "
        + "connect-src 'self'; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";
}
