using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>How the person of a letter leaves its kind.</summary>
/// <param name="Wanted">False when they have left it already.</param>
/// <param name="Line">The last line of the letter, in their language.</param>
public sealed record Leave(bool Wanted, Uri Link, string Line);

/// <summary>
/// Links by which a person leaves a kind of mail without signing in. The secret is signed and names the person and the kind; it opens nothing
/// else, and it is not kept with the letter.
/// </summary>
public sealed class LeaveLinks(IDataProtectionProvider protection, TanksideOptions options, IDbContextFactory<HatcheryDb> databases)
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

    /// <summary>Null for a letter that must reach its person anyway.</summary>
    public async Task<Leave?> OfAsync(OutgoingLetter letter, MailKind? kind, CancellationToken cancel)
    {
        if (kind is not { } of || letter.PersonId is not { } id)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Users.AsNoTracking().SingleOrDefaultAsync(p => p.Id == id, cancel) is not { } person)
        {
            return null;
        }

        var link = LinkOf(id, of);
        return new Leave(person.Wants(of), link, $"\n\n{(person.Language == "es" ? "Para no recibir más correos de este tipo" : "To get no more mails of this kind")}: {link}");
    }
}
