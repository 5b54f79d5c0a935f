using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>Words being typed, kept in the database so that neither a lost connection nor a restart of the portal loses them.</summary>
public sealed class Drafts(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Empty when there is none.</summary>
    public async Task<string> LoadAsync(Guid person, string key, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Drafts.Where(d => d.PersonId == person && d.Key == key).Select(d => d.Text).SingleOrDefaultAsync(cancel) ?? "";
    }

    /// <summary>Empty words leave nothing behind.</summary>
    public async Task KeepAsync(Guid person, string key, string text, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var draft = await db.Drafts.SingleOrDefaultAsync(d => d.PersonId == person && d.Key == key, cancel);
        if (string.IsNullOrWhiteSpace(text))
        {
            if (draft is not null)
            {
                db.Drafts.Remove(draft);
            }
        }
        else
        {
            if (draft is null)
            {
                db.Drafts.Add(draft = new Draft { PersonId = person, Key = key, Text = "" });
            }

            draft.Text = text.Length > Draft.Longest ? text[..Draft.Longest] : text;
            draft.At = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        }

        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            // The same person types in two windows: the later stroke of either is kept with the next one.
        }
    }
}
