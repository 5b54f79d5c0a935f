using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Puts letters into the outbox and looks at them as they are stored.</summary>
internal static class StoredLetters
{
    /// <summary>Writes a plain letter to the programme's coordinator and saves it; false when it was there already.</summary>
    public static async Task<bool> WriteLetterAsync(this PortalHost host, TestProgramme programme, string key, DateTime? notBefore = null)
    {
        var to = programme.People[Role.Coordinator];
        await using var db = host.OpenDb();
        var written = await host.Services.GetRequiredService<Outbox>().WriteAsync(
            db, new NewLetter(key, programme.Programme.Id, to.Id, to.Email!, $"About {key}", $"This is {key}.", notBefore), CancellationToken.None);
        await db.SaveChangesAsync();
        return written;
    }

    /// <summary>Every letter, in the order they were written.</summary>
    public static async Task<List<OutgoingLetter>> LettersAsync(this PortalHost host)
    {
        await using var db = host.OpenDb();
        return [.. (await db.OutgoingLetters.AsNoTracking().ToListAsync()).OrderBy(l => l.WrittenAt).ThenBy(l => l.Key, StringComparer.Ordinal)];
    }

    /// <summary>Changes something of a person, as they do on their own page.</summary>
    public static async Task ChangePersonAsync(this PortalHost host, Storage.People.Person person, Action<Storage.People.Person> change)
    {
        await using var db = host.OpenDb();
        change(await db.Users.SingleAsync(p => p.Id == person.Id));
        await db.SaveChangesAsync();
    }
}
