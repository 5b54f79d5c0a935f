using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;
using Tankside.Storage.Readings;
using Keep = Tankside.Hatchery.People.Keeping;

namespace Tankside.Portal.Digests.Keeping;

/// <summary>Deletes what a programme keeps no longer, and writes down how much of what it was.</summary>
public sealed class LetGo(IDbContextFactory<HatcheryDb> databases, ChangeRecorder recorder, OpenSessions sessions, TimeProvider time)
{
    /// <summary>How many rows went, of all programmes.</summary>
    public async Task<int> RunAsync(CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        // The same daily turn: a portal that runs for years has room for the readings of the season that begins.
        await ReadingSeasons.KeepAheadAsync(db, time.GetUtcNow().UtcDateTime, cancel);
        await sessions.ForgetOldAsync(cancel);
        var gone = 0;
        foreach (var programme in await db.Programmes.Select(p => p.Id).ToListAsync(cancel))
        {
            gone += await RunAsync(programme, cancel);
        }

        return gone;
    }

    private async Task<int> RunAsync(Guid programme, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == programme).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var (letters, photos, sheets) = (Before(Keep.Letters), Before(Keep.Photos), Before(Keep.Sheets));
        var (drafts, invitations, changes) = (Before(Keep.Drafts), Before(Keep.Invitations), Before(Keep.Changes));
        var tanks = db.Tanks.Where(t => t.ProgrammeId == programme).Select(t => t.Id);
        var members = db.Memberships.Where(m => m.ProgrammeId == programme).Select(m => m.PersonId);
        var readingSheets = db.ReadingImports.Where(i => i.ProgrammeId == programme && i.State == ImportState.Previewed && i.SentAt < sheets);
        var placeSheets = db.PlaceImports.Where(i => i.ProgrammeId == programme && i.State == PlaceImportState.Previewed && i.SentAt < sheets);

        await using var whole = await db.Database.BeginTransactionAsync(cancel);
        await db.ImportedSheets.Where(s => readingSheets.Any(i => i.Id == s.ImportId)).ExecuteDeleteAsync(cancel);
        await db.PlaceImportSheets.Where(s => placeSheets.Any(i => i.Id == s.ImportId)).ExecuteDeleteAsync(cancel);
        (Type What, double Days, int Count)[] gone =
        [
            (typeof(OutgoingLetter), Days(Keep.Letters), await db.OutgoingLetters
                .Where(l => l.ProgrammeId == programme && l.WrittenAt < letters && l.State != LetterState.Waiting && l.State != LetterState.Sending).ExecuteDeleteAsync(cancel)),
            (typeof(TankPhoto), Days(Keep.Photos), await db.TankPhotos.Where(p => tanks.Contains(p.TankId) && p.ReceivedAt < photos).ExecuteDeleteAsync(cancel)),
            (typeof(ReadingImport), Days(Keep.Sheets), await readingSheets.ExecuteDeleteAsync(cancel)),
            (typeof(PlaceImport), Days(Keep.Sheets), await placeSheets.ExecuteDeleteAsync(cancel)),
            (typeof(Draft), Days(Keep.Drafts), await db.Drafts.Where(d => members.Contains(d.PersonId) && d.At < drafts).ExecuteDeleteAsync(cancel)),
            (typeof(Invitation), Days(Keep.Invitations), await db.Invitations
                .Where(i => i.ProgrammeId == programme && (i.AcceptedAt ?? i.WithdrawnAt ?? i.ExpiresAt) < invitations).ExecuteDeleteAsync(cancel)),
            (typeof(Change), Days(Keep.Changes), await db.Changes.Where(c => c.ProgrammeId == programme && c.At < changes).ExecuteDeleteAsync(cancel)),
        ];
        foreach (var (what, days, count) in gone.Where(g => g.Count > 0))
        {
            db.Changes.Add(recorder.Note(
                programme, what, "kept no longer", $"older than {days.ToString("0", CultureInfo.InvariantCulture)} days", ChangeKind.Removed,
                new ChangedField("Count", count.ToString(CultureInfo.InvariantCulture), null)));
        }

        await db.SaveChangesAsync(cancel);
        await whole.CommitAsync(cancel);
        return gone.Sum(g => g.Count);

        DateTime Before((string Key, double Default) number) => Keep.Before(now, Days(number));

        double Days((string Key, double Default) number) => own.GetValueOrDefault(number.Key, number.Default);
    }
}
