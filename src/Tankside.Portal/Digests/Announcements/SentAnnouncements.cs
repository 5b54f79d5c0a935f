using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>An announcement in the list, with how many of its letters stand where.</summary>
public sealed record ListedAnnouncement(Announcement Announcement, string? By, IReadOnlyDictionary<LetterState, int> Letters)
{
    public string Subject => Announcement.SubjectEn.Length > 0 ? Announcement.SubjectEn : Announcement.SubjectEs;

    public int Count(params LetterState[] states) => states.Sum(s => Letters.GetValueOrDefault(s));

    public bool CanBeTakenBack => Announcement.TakenBackAt is null && Letters.Keys.All(s => s == LetterState.Waiting);
}

/// <summary>One reader of an announcement and what became of their letter.</summary>
public sealed record ReaderOfAnnouncement(Guid PersonId, string Name, WhyNoLetter? Without, OutgoingLetter? Letter);

/// <summary>What was announced to whom, and what became of each letter.</summary>
public sealed class SentAnnouncements(IDbContextFactory<HatcheryDb> databases)
{
    public const int Most = 50;

    /// <summary>The newest first.</summary>
    public async Task<IReadOnlyList<ListedAnnouncement>> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await ListedAsync(db, await db.Announcements.AsNoTracking().Where(a => a.ProgrammeId == user.ProgrammeId)
            .OrderByDescending(a => a.WrittenAt).ThenBy(a => a.Id).Take(Most).ToListAsync(cancel), cancel);
    }

    /// <summary>Null when there is none such in the programme.</summary>
    public async Task<(ListedAnnouncement Announcement, IReadOnlyList<ReaderOfAnnouncement> Readers, ProgrammeClock Clock)?> OneAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Announcements.AsNoTracking().SingleOrDefaultAsync(a => a.Id == id && a.ProgrammeId == user.ProgrammeId, cancel) is not { } announcement)
        {
            return null;
        }

        var key = WriteAnnouncement.KeyOf(id);
        var letters = await db.OutgoingLetters.AsNoTracking().Where(l => l.Key.StartsWith(key)).ToDictionaryAsync(l => l.Key, cancel);
        var readers = await (
            from reader in db.AnnouncementReaders
            join person in db.Users on reader.PersonId equals person.Id
            where reader.AnnouncementId == id
            orderby person.Name, person.Id
            select new { reader.PersonId, person.Name, reader.Without }).ToListAsync(cancel);
        var zone = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        return (
            (await ListedAsync(db, [announcement], cancel))[0],
            [.. readers.Select(r => new ReaderOfAnnouncement(r.PersonId, r.Name, r.Without, letters.GetValueOrDefault(WriteAnnouncement.KeyOf(id, r.PersonId))))],
            ProgrammeClock.Of(zone));
    }

    private static async Task<IReadOnlyList<ListedAnnouncement>> ListedAsync(HatcheryDb db, List<Announcement> announcements, CancellationToken cancel)
    {
        if (announcements.Count == 0)
        {
            return [];
        }

        var (programme, since) = (announcements[0].ProgrammeId, announcements.Min(a => a.WrittenAt));
        var letters = (await db.OutgoingLetters
            .Where(l => l.ProgrammeId == programme && l.WrittenAt >= since && l.Key.StartsWith(WriteAnnouncement.Kind))
            .Select(l => new { l.Key, l.State }).ToListAsync(cancel)).ToLookup(l => l.Key.Split(' ')[1], l => l.State);
        var writers = announcements.Select(a => a.WrittenBy).Distinct().ToList();
        var names = await db.Users.Where(p => writers.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return
        [
            .. announcements.Select(a => new ListedAnnouncement(
                a, names.GetValueOrDefault(a.WrittenBy), letters[a.Id.ToString("N")].GroupBy(s => s).ToDictionary(g => g.Key, g => g.Count()))),
        ];
    }
}
