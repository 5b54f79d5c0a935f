using System.Globalization;
using Microsoft.AspNetCore.Authentication;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

public static class Sessions
{
    /// <summary>How long an open session may outlive what ended it.</summary>
    public static readonly TimeSpan CheckEvery = TimeSpan.FromMinutes(1);

    /// <summary>However often it is used: after this the password is asked again (no source; a season's longest stretch without a break).</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(90);

    private const string Began = "began";

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
