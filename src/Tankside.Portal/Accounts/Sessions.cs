using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

public static class Sessions
{
    /// <summary>How long an open session may outlive what ended it.</summary>
    public static readonly TimeSpan CheckEvery = TimeSpan.FromMinutes(1);

    /// <summary>However often it is used: after this the password is asked again (no source; a season's longest stretch without a break).</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(90);

    private const string Began = "began", Open = "session";

    /// <summary>Its row's id; null for nobody, and for a session of a program that kept no rows.</summary>
    public static Guid? IdOf(ClaimsPrincipal session) => Guid.TryParse(session.FindFirstValue(Open), out var id) ? id : null;

    public static Guid? IdOf(AuthenticationProperties session) => Guid.TryParse(session.GetString(Open), out var id) ? id : null;

    /// <summary>What a session says of its row to whoever only sees its claims.</summary>
    public static Claim ClaimOf(Guid id) => new(Open, id.ToString());

    public static void SetId(AuthenticationProperties session, Guid id) => session.SetString(Open, id.ToString());

    /// <summary>Notes in a session that is being written when it began; one that is only written anew keeps its beginning.</summary>
    public static void Begin(AuthenticationProperties session, DateTimeOffset now)
    {
        if (session.GetString(Began) is null)
        {
            session.SetString(Began, now.ToString("O", CultureInfo.InvariantCulture));
        }
    }

    public static bool IsOver(AuthenticationProperties session, DateTimeOffset now) =>
        session.GetString(Began) is { } began && now - DateTimeOffset.Parse(began, CultureInfo.InvariantCulture) > Longest;

    /// <summary>
    /// Ends every open session of a person, with the save that follows. The concurrency stamp goes along, so that a sign-in that is just
    /// being written cannot put the old stamp back.
    /// </summary>
    public static void EndAll(Person person)
    {
        person.SecurityStamp = Guid.CreateVersion7().ToString("N");
        person.ConcurrencyStamp = Guid.CreateVersion7().ToString("N");
    }
}
