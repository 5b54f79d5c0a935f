using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Texts;

/// <summary>Keeps the texts of one page in a programme's own words, or gives ours back. Texts of one page are saved together.</summary>
public sealed class KeepTexts(IDbContextFactory<HatcheryDb> databases, RoundFeed feed)
{
    public async Task<OwnTexts> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.OwnTextsOfAsync(user.ProgrammeId, cancel);
    }

    /// <summary>Stands for all texts whose keys begin so, as they are.</summary>
    public static string Seen(IEnumerable<OwnText> texts) =>
        Secrets.Hash(string.Join('\u001f', texts.OrderBy(t => t.Key, StringComparer.Ordinal).SelectMany(t => new[] { t.Key, t.En, t.Es })));

    /// <summary>What to tell; null when somebody else was first, and <paramref name="clash"/> has been told what stands now.</summary>
    /// <param name="start">With what the keys of the page's texts begin.</param>
    /// <param name="wanted">All that shall stand; without one ours stands.</param>
    /// <param name="saved">What to tell when it is done.</param>
    public Task<Notice?> SaveAsync(
        CurrentUser user, string start, IReadOnlyList<OwnText> wanted, string? seen, string saved, Action<string> clash, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, start, wanted, seen, saved, clash, cancel), refuse);

    private async Task<Notice?> TryAsync(
        CurrentUser user, string start, IReadOnlyList<OwnText> wanted, string? seen, string saved, Action<string> clash, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var stored = await db.OwnTexts.Where(t => t.ProgrammeId == user.ProgrammeId && t.Key.StartsWith(start)).ToListAsync(cancel);
        if (Seen(stored) == Seen(wanted))
        {
            return new Notice(true, "It stands so already.");
        }

        if (Seen(stored) != (seen ?? ""))
        {
            clash(Seen(stored));
            return null;
        }

        // Two texts of one page are rows of their own: who saves second on the programme is told, and looks again.
        db.Entry(await db.Programmes.SingleAsync(p => p.Id == user.ProgrammeId, cancel)).Property(p => p.Name).IsModified = true;
        db.OwnTexts.RemoveRange(stored.Where(s => wanted.All(w => w.Key != s.Key)));
        foreach (var text in wanted)
        {
            if (stored.Find(s => s.Key == text.Key) is { } row)
            {
                (row.En, row.Es) = (text.En, text.Es);
            }
            else
            {
                db.OwnTexts.Add(text);
            }
        }

        await db.SaveChangesAsync(cancel);
        feed.Tell([user.ProgrammeId]);
        return new Notice(true, saved);
    }
}
