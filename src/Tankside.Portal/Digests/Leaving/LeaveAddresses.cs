using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Leaving;

/// <summary>What the page of such a link shows.</summary>
public enum LeaveState
{
    Unknown,
    Asked,
    Left,
    Back,
}

/// <summary>
/// The way out of a kind of mail: /mail/{secret}, without signing in. Opening it changes nothing, because programs open links to look at them;
/// the button does, and so does the one press of a mail program (RFC 8058), which sends the same form without a cookie.
/// </summary>
public static class LeaveAddresses
{
    /// <summary>The field by which somebody takes leaving back.</summary>
    public const string Again = "again";

    public static void MapLeaving(this IEndpointRouteBuilder routes)
    {
        var link = routes.MapGroup($"/{LeaveLinks.Path}/{{secret}}").AllowAnonymous().DisableAntiforgery().ExcludeFromDescription();
        link.MapGet("", (string secret, LeaveLinks links, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel) =>
            AnswerAsync(secret, null, links, databases, cancel));
        link.MapPost("", (string secret, IFormCollection fields, LeaveLinks links, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel) =>
            AnswerAsync(secret, fields.ContainsKey(Again), links, databases, cancel));
    }

    /// <param name="wanted">What the person chooses; null to change nothing.</param>
    private static async Task<IResult> AnswerAsync(
        string secret, bool? wanted, LeaveLinks links, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (links.Read(secret) is not var (id, kind) || await db.Users.SingleOrDefaultAsync(p => p.Id == id, cancel) is not { } person)
        {
            return Page(LeaveWords.Of(null, null), LeaveState.Unknown, "", StatusCodes.Status404NotFound);
        }

        if (wanted is { } choice)
        {
            person.Choose(kind, choice);
            await db.SaveChangesAsync(cancel);
        }

        var state = wanted == true ? LeaveState.Back : person.Wants(kind) ? LeaveState.Asked : LeaveState.Left;
        return Page(LeaveWords.Of(kind, person.Language), state, $"/{LeaveLinks.Path}/{secret}", StatusCodes.Status200OK);
    }

    private static RazorComponentResult<LeavePage> Page(LeaveWords words, LeaveState state, string address, int status) =>
        new(new { W = words, State = state, Address = address }) { StatusCode = status };
}
