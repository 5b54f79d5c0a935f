using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>A letter as the lead sees it: to whom and what about, not what it says.</summary>
public sealed record ListedLetter(Guid Id, string To, string Subject, LetterState State, DateTime WrittenAt, DateTime NotBefore, DateTime? SentAt, string? Trouble);

/// <summary>Somebody of the programme whose address takes no mail.</summary>
public sealed record RefusedReader(Guid MembershipId, string Name, RefusedAddress Mark);

/// <summary>What became of a programme's letters, and the lead's word to send one again.</summary>
public sealed class SentLetters(IDbContextFactory<HatcheryDb> databases, Outbox outbox, TimeProvider time)
{
    public const int Days = 14, Most = 200;

    /// <summary>Letters of the last days, the newest first.</summary>
    public async Task<IReadOnlyList<ListedLetter>> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        var since = time.GetUtcNow().UtcDateTime.AddDays(-Days);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from letter in db.OutgoingLetters.AsNoTracking()
            join person in db.Users on letter.PersonId equals person.Id into people
            from person in people.DefaultIfEmpty()
            where letter.ProgrammeId == user.ProgrammeId && letter.WrittenAt > since
            orderby letter.WrittenAt descending, letter.Id
            select new ListedLetter(
                letter.Id, person == null ? letter.To : person.Name, letter.Subject, letter.State, letter.WrittenAt, letter.NotBefore, letter.SentAt, letter.Trouble))
            .Take(Most).ToListAsync(cancel);
    }

    /// <summary>Whose addresses take no mail, by name.</summary>
    public async Task<IReadOnlyList<RefusedReader>> RefusedAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from member in db.Memberships.AsNoTracking()
            join person in db.Users on member.PersonId equals person.Id
            join mark in db.RefusedAddresses on person.NormalizedEmail equals mark.Address
            where member.ProgrammeId == user.ProgrammeId
            orderby person.Name
            select new RefusedReader(member.Id, person.Name, mark)).ToListAsync(cancel);
    }

    /// <summary>
    /// Puts a letter that may not have gone, or was given up, back into the outbox. Only a person may do so: they can ask whether it came.
    /// </summary>
    public async Task<Notice> SendAgainAsync(CurrentUser user, Guid letterId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var letter = await db.OutgoingLetters.SingleOrDefaultAsync(l => l.Id == letterId && l.ProgrammeId == user.ProgrammeId, cancel);
        if (letter is null || !MaySendAgain(letter.State))
        {
            return new Notice(false, "This letter is not waiting for your word any more. Nothing was changed.");
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        (letter.State, letter.NotBefore, letter.Attempts, letter.Trouble) = (LetterState.Waiting, now, 0, null);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "Somebody else was quicker. Nothing was changed; this is how it stands now.");
        }

        outbox.Wake();
        return new Notice(true, "The letter is on its way again. If what it tells is over by now, it is left unsent.");
    }

    public static bool MaySendAgain(LetterState state) => state is LetterState.Unsure or LetterState.GivenUp or LetterState.Bounced;
}
