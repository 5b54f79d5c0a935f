using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Takes an announcement back while not one of its letters has gone. All of it or nothing: half an announcement would be worse.</summary>
public sealed class TakeBackAnnouncement(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<Notice?> HandleAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Announcements.SingleOrDefaultAsync(a => a.Id == id && a.ProgrammeId == user.ProgrammeId, cancel) is not { } announcement)
        {
            return null;
        }

        if (announcement.TakenBackAt is not null)
        {
            return new Notice(true, "The announcement is taken back already.");
        }

        var key = WriteAnnouncement.KeyOf(id);
        var letters = await db.OutgoingLetters.Where(l => l.Key.StartsWith(key)).ToListAsync(cancel);
        if (letters.Exists(l => l.State != LetterState.Waiting || l.Attempts > 0))
        {
            return new Notice(false, "The first letter is out, so it cannot be taken back any more. Nothing was changed; write another that puts it right.");
        }

        (announcement.TakenBackAt, announcement.TakenBackBy) = (Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), user.PersonId);
        foreach (var letter in letters)
        {
            (letter.State, letter.Trouble) = (LetterState.GivenUp, LetterTroubles.NotNeeded + AnnouncementWords.TakenBack);
        }

        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            // The outbox, or somebody else, touched one of the letters at this moment.
            return new Notice(false, "A letter was being looked at this very moment. Nothing was changed; please look how it stands and press once more.");
        }

        return new Notice(true, "Taken back. Not one letter went out.");
    }
}
