using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>How the person of a letter leaves its kind, or why they cannot.</summary>
/// <param name="Wanted">False when they have left it already.</param>
/// <param name="Link">Null for a kind that nobody leaves.</param>
/// <param name="Line">The last line of the letter, in their language.</param>
public sealed record Leave(bool Wanted, Uri? Link, string Line);

/// <summary>
/// Links by which a person leaves a kind of mail without signing in. The secret is signed and names the person and the kind; it opens nothing
/// else, and it is not kept with the letter.
/// </summary>
public sealed class LeaveLinks(
    IDataProtectionProvider protection, TanksideOptions options, IDbContextFactory<HatcheryDb> databases, IEnumerable<MustArrive> mustArrive)
{
    public const string Path = "mail";

    private readonly IDataProtector protector = protection.CreateProtector("Tankside.LeaveMail");

    public Uri LinkOf(Guid person, MailKind kind) => new(options.PublicUrl, $"{Path}/{protector.Protect($"{person:N} {kind}")}");

    /// <summary>Null for a secret that is not ours.</summary>
    public (Guid Person, MailKind Kind)? Read(string secret)
    {
        try
        {
            return protector.Unprotect(secret).Split(' ') is [var person, var kind] && Guid.TryParse(person, out var id) && Enum.TryParse<MailKind>(kind, out var of)
                ? (id, of)
                : null;
        }
        catch (Exception e) when (e is CryptographicException or FormatException)
        {
            return null;
        }
    }

    /// <summary>Null for a letter that its person asked for, and for one to somebody without an account.</summary>
    public async Task<Leave?> OfAsync(OutgoingLetter letter, MailKind? kind, CancellationToken cancel)
    {
        var stays = kind is null ? mustArrive.FirstOrDefault(m => m.Knows(letter)) : null;
        if ((kind is null && stays is null) || letter.PersonId is not { } id)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Users.AsNoTracking().SingleOrDefaultAsync(p => p.Id == id, cancel) is not { } person)
        {
            return null;
        }

        if (kind is not { } of)
        {
            return new Leave(true, null, stays!.Line(person.Language, new Uri(options.PublicUrl, "me")));
        }

        var link = LinkOf(id, of);
        return new Leave(person.Wants(of), link, $"\n\n{(person.Language == "es" ? "Para no recibir más correos de este tipo" : "To get no more mails of this kind")}: {link}");
    }
}
