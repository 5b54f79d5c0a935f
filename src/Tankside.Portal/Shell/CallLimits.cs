using System.Globalization;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;

namespace Tankside.Portal.Shell;

/// <summary>How much is served a minute: to an address at doors that guard a secret, to an address and to a key under /api, to a member, at a room code.</summary>
public static class CallLimits
{
    /// <summary>Tries a minute and address at a door that guards a secret: passwords and invitations.</summary>
    private const int TriesAMinute = 20;

    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    public static void Add(RateLimiterOptions options)
    {
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.GlobalLimiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, string>(OfAddress), PartitionedRateLimiter.Create<HttpContext, string>(OfKey),
            PartitionedRateLimiter.Create<HttpContext, string>(OfMember), PartitionedRateLimiter.Create<HttpContext, string>(OfRoom));
        options.OnRejected = (rejected, cancel) => new ValueTask(TellAsync(rejected));
    }

    private static RateLimitPartition<string> OfAddress(HttpContext context)
    {
        var address = Visitor.AddressOf(context);
        var path = context.Request.Path;
        return path.StartsWithSegments("/api") || IsFeed(path) || IsSheet(path) ? Window("api " + address, OptionsOf(context).ApiCallsAMinute)
            : HttpMethods.IsPost(context.Request.Method) && GuardsASecret(path) ? Window("door " + address, TriesAMinute)
            : RateLimitPartition.GetNoLimiter("pages");
    }

    /// <summary>Before anybody looks whether the key is any good: a wrong one is counted too, by its fingerprint.</summary>
    private static RateLimitPartition<string> OfKey(HttpContext context) =>
        context.Request.Path.StartsWithSegments("/api") && BearerKey.Of(context.Request) is { } key
            ? Window("key " + Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(key))), OptionsOf(context).ApiRequestsPerMinute)
            : RateLimitPartition.GetNoLimiter("keyless");

    /// <summary>
    /// What a browser keeps is not counted. A living page is one request that lasts for as long as it is open; so many may last at the same time.
    /// </summary>
    private static RateLimitPartition<string> OfMember(HttpContext context) =>
        context.User.FindFirstValue(ClaimTypes.NameIdentifier) is not { } member || Path.HasExtension(context.Request.Path.Value) ? RateLimitPartition.GetNoLimiter("nobody")
        : context.Request.Path == "/_blazor" ? RateLimitPartition.GetConcurrencyLimiter("living " + member, _ => new ConcurrencyLimiterOptions { PermitLimit = OptionsOf(context).LivingPagesPerMember })
        : Window("member " + member, OptionsOf(context).MemberRequestsPerMinute);

    /// <summary>A class sends a few forms a day. Whoever has its code and means ill sends no more than this.</summary>
    private static RateLimitPartition<string> OfRoom(HttpContext context) =>
        HttpMethods.IsPost(context.Request.Method) && context.Request.Path.StartsWithSegments("/t", out var rest)
            ? Window("room " + rest.Value!.Split('/', 3).ElementAtOrDefault(1)?.ToUpperInvariant(), OptionsOf(context).FormsPerMinute)
            : RateLimitPartition.GetNoLimiter("roomless");

    /// <summary>What a calendar program reads by itself, as often as somebody set it to.</summary>
    private static bool IsFeed(PathString path) => path.StartsWithSegments("/calendar/feeds") && path.Value!.EndsWith(".ics", StringComparison.Ordinal);

    /// <summary>A driver's sheet, opened by a code that could be guessed at.</summary>
    private static bool IsSheet(PathString path) => path.StartsWithSegments("/run") && !path.Value!.EndsWith(".js", StringComparison.Ordinal);

    private static bool GuardsASecret(PathString path) =>
        path.StartsWithSegments("/sign-in") || path.StartsWithSegments("/forgot-password")
        || path.StartsWithSegments("/reset-password") || path.StartsWithSegments("/invitation") || path.StartsWithSegments("/set-up");

    private static RateLimitPartition<string> Window(string key, int permits) => RateLimitPartition.GetFixedWindowLimiter(
        key, _ => new FixedWindowRateLimiterOptions { PermitLimit = permits, Window = Minute });

    private static TanksideOptions OptionsOf(HttpContext context) => context.RequestServices.GetRequiredService<TanksideOptions>();

    private static Task TellAsync(OnRejectedContext rejected)
    {
        var wait = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var left) ? left : Minute;
        var seconds = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds));
        rejected.HttpContext.Response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        return rejected.HttpContext.RequestServices.GetRequiredService<IProblemDetailsService>().WriteAsync(new ProblemDetailsContext
        {
            HttpContext = rejected.HttpContext,
            ProblemDetails =
            {
                Status = StatusCodes.Status429TooManyRequests,
                Detail = $"Too many calls within a minute, from this address, with this key, by you or at this code. Wait {seconds} seconds and send it again; nothing was stored.",
            },
        }).AsTask();
    }
}
