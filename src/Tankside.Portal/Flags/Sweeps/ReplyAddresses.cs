using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>
/// The way in for an answer: /sweep/{secret} from the message, a whole static document without script, cookie or session. The secret in the
/// address is the key, so a forged post gains nothing that the address does not already give.
/// </summary>
public static class ReplyAddresses
{
    public const string Path = "sweep";

    public static void MapSweepReplies(this IEndpointRouteBuilder routes)
    {
        var link = routes.MapGroup($"/{Path}/{{secret}}").AllowAnonymous().DisableAntiforgery().ExcludeFromDescription();
        link.MapGet("", (string secret, HttpContext context, ReplyByLink replies, CancellationToken cancel) =>
            ByLinkAsync(secret, context, replies, asked => Task.FromResult(TakeReply.Page(asked, secret, new ReplyInput())), cancel));
        link.MapPost("", (string secret, IFormCollection fields, HttpContext context, ReplyByLink replies, TakeReply take, CancellationToken cancel) =>
            ByLinkAsync(secret, context, replies, asked => take.HandleAsync(asked, secret, fields, cancel), cancel));
    }

    private static async Task<IResult> ByLinkAsync(
        string secret, HttpContext context, ReplyByLink replies, Func<AskedSchool, Task<IResult>> page, CancellationToken cancel)
    {
        var wrongCodes = context.RequestServices.GetRequiredService<WrongCodes>();
        var address = Visitor.AddressOf(context);
        var shutOut = wrongCodes.IsShutOut(address);
        var asked = shutOut ? null : await replies.FindAsync(secret, address, cancel);
        if (asked is { IsOver: false })
        {
            return await page(asked);
        }

        return new RazorComponentResult<NoSuchLinkPage>(new { Why = shutOut ? NoLink.ShutOut : asked is null ? NoLink.Unknown : NoLink.Over, Language = asked?.Language ?? "en" })
        {
            StatusCode = shutOut ? StatusCodes.Status429TooManyRequests : asked is null ? StatusCodes.Status404NotFound : StatusCodes.Status410Gone,
        };
    }
}

/// <summary>Why a link opens nothing.</summary>
public enum NoLink
{
    Unknown,
    Over,
    ShutOut,
}
