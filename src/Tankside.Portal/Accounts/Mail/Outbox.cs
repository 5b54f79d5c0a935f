using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>A letter to put into the outbox.</summary>
/// <param name="Key">What it is about and to whom; see <see cref="OutgoingLetter.Key"/>.</param>
/// <param name="NotBefore">Null for at once.</param>
public sealed record NewLetter(string Key, Guid ProgrammeId, Guid? PersonId, string To, string Subject, string Text, DateTime? NotBefore = null);

/// <summary>
/// Letters that nobody waits for at a page. They are saved together with what they tell and sent afterwards, so that a crash loses none and
/// doubles none. Letters with links that open accounts are put in without their link, which is made when they go: their secrets must
/// not lie in the database. The link of a marked area does: it takes one answer about one school, for as long as the mark stands.
/// </summary>
public sealed class Outbox(TimeProvider time)
{
    private readonly Bell bell = new();

    /// <summary>
    /// Adds the letter to the caller's context; the caller saves and then calls <see cref="Wake"/>. False when one of the same key is there
    /// already. Two writers at once meet at the key: the later save fails and finds it written.
    /// </summary>
    public async Task<bool> WriteAsync(HatcheryDb db, NewLetter letter, CancellationToken cancel)
    {
        if (db.OutgoingLetters.Local.Any(l => l.Key == letter.Key) || await db.OutgoingLetters.AnyAsync(l => l.Key == letter.Key, cancel))
        {
            return false;
        }

        Add(db, letter);
        return true;
    }

    /// <summary>The same for a letter whose key is new by itself, because what it tells is.</summary>
    public void Add(HatcheryDb db, NewLetter letter)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        db.OutgoingLetters.Add(new OutgoingLetter
        {
            Id = Guid.CreateVersion7(new DateTimeOffset(now)),
            Key = letter.Key,
            ProgrammeId = letter.ProgrammeId,
            PersonId = letter.PersonId,
            To = letter.To,
            Subject = letter.Subject,
            Text = letter.Text,
            WrittenAt = now,
            NotBefore = letter.NotBefore ?? now,
            State = LetterState.Waiting,
        });
    }

    /// <summary>Says that something was put in and committed.</summary>
    public void Wake() => bell.Ring();

    public Task<bool> WaitAsync(TimeSpan atMost, CancellationToken cancel) => bell.WaitAsync(atMost, time, cancel);
}
