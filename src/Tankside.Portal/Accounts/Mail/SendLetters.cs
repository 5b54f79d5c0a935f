using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Telemetry;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>
/// Sends what waits in the outbox, letter by letter. A letter is claimed first, so that of several portals one sends it; one that a crash
/// left in somebody's hands may have gone and is never sent again by itself.
/// </summary>
public sealed class SendLetters(
    IDbContextFactory<HatcheryDb> databases, IMailer mailer, TimeProvider time, IEnumerable<IFreshWords> words, LeaveLinks leaving,
    PortalMeter meter, ILogger<SendLetters> log)
{
    /// <summary>Longer than a mail server is ever waited for.</summary>
    public static readonly TimeSpan Hold = TimeSpan.FromMinutes(2);

    /// <summary>How often the outcome is written down again when the database is away at that moment.</summary>
    private const int Tries = 5;

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    /// <summary>Sends every letter that is due; gives how many it had in hand. A letter in hand is finished also when told to stop.</summary>
    public async Task<int> SendDueAsync(CancellationToken stop)
    {
        await FindUnsureAsync(stop);
        var handled = 0;
        while (!stop.IsCancellationRequested && await ClaimAsync(stop) is { } letter)
        {
            await SendAsync(letter);
            handled++;
        }

        return handled;
    }

    private async Task FindUnsureAsync(CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Now;
        foreach (var id in await db.OutgoingLetters.Where(l => l.State == LetterState.Sending && l.HeldUntil < now).Select(l => l.Id).ToListAsync(cancel))
        {
            await ChangeAsync(id, letter =>
            {
                if (letter.State == LetterState.Sending && letter.HeldUntil < now)
                {
                    (letter.State, letter.HeldUntil, letter.Trouble) = (LetterState.Unsure, null, LetterTroubles.PortalStopped);
                }
            });
        }
    }

    private async Task<OutgoingLetter?> ClaimAsync(CancellationToken cancel)
    {
        while (true)
        {
            var now = Now;
            await using var db = await databases.CreateDbContextAsync(cancel);
            var letter = await db.OutgoingLetters.Where(l => l.State == LetterState.Waiting && l.NotBefore <= now)
                .OrderBy(l => l.NotBefore).ThenBy(l => l.Id).FirstOrDefaultAsync(cancel);
            if (letter is null)
            {
                return null;
            }

            var quietUntil = await QuietUntilAsync(db, letter, now, cancel);
            if (quietUntil is { } until)
            {
                letter.NotBefore = until;
            }
            else
            {
                (letter.State, letter.HeldUntil, letter.Attempts) = (LetterState.Sending, now + Hold, letter.Attempts + 1);
            }

            if (await TrySaveAsync(db, cancel) && quietUntil is null)
            {
                return letter;
            }
        }
    }

    private static async Task<DateTime?> QuietUntilAsync(HatcheryDb db, OutgoingLetter letter, DateTime now, CancellationToken cancel)
    {
        var hours = await db.Users.Where(p => p.Id == letter.PersonId).Select(p => new { p.QuietFrom, p.QuietTo }).SingleOrDefaultAsync(cancel);
        if (QuietHours.Of(hours?.QuietFrom, hours?.QuietTo) is not { } quiet)
        {
            return null;
        }

        var zone = await db.Programmes.Where(p => p.Id == letter.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        return quiet.EndsAfter(now, ProgrammeClock.Of(zone));
    }

    private async Task SendAsync(OutgoingLetter letter)
    {
        var known = words.FirstOrDefault(w => w.Knows(letter));
        var leave = await leaving.OfAsync(letter, known?.Kind, CancellationToken.None);
        switch (leave is { Wanted: false } ? new FreshWords.NotNeeded("they want no mails of this kind.") : await WordAsync(letter, known))
        {
            case FreshWords.Say(var subject, var text, var kept):
                var (outcome, code) = await mailer.HandOverAsync(new Letter(letter.To, subject, text + leave?.Line, letter.Id, leave?.Link), CancellationToken.None);
                await ChangeAsync(letter.Id, async (db, l) =>
                {
                    Note(l, subject, kept ?? text, outcome, code);
                    await RefusedAddresses.NoteAsync(db, l, code, Now);
                });
                meter.Wrote(outcome.ToString().ToLowerInvariant());
                log.LogInformation("Letter {Letter} to {Person}: {Outcome}", letter.Id, letter.PersonId, outcome);
                break;
            case FreshWords.Later(var notBefore):
                await ChangeAsync(letter.Id, l => PutBack(l, notBefore));
                break;
            case FreshWords.NotNeeded(var why):
                await ChangeAsync(letter.Id, l => Leave(l, why));
                log.LogInformation("Letter {Letter} to {Person} was not needed any more", letter.Id, letter.PersonId);
                break;
        }
    }

    /// <summary>A letter that cannot be worded anew goes as it was written: old words are better than none.</summary>
    private async Task<FreshWords> WordAsync(OutgoingLetter letter, IFreshWords? known)
    {
        if (known is { } fresh)
        {
            try
            {
                return await fresh.WordAsync(letter, CancellationToken.None);
            }
            catch (Exception e) when (e is DbException or InvalidOperationException or ArgumentException or KeyNotFoundException or TimeoutException)
            {
                log.LogError(e, "Letter {Letter} could not be worded anew and goes as it was written", letter.Id);
            }
        }

        return new FreshWords.Say(letter.Subject, letter.Text);
    }

    private static void PutBack(OutgoingLetter letter, DateTime notBefore) => (letter.State, letter.HeldUntil, letter.Attempts, letter.NotBefore) =
        (LetterState.Waiting, null, letter.Attempts - 1, notBefore);

    private static void Leave(OutgoingLetter letter, string why) => (letter.State, letter.HeldUntil, letter.Attempts, letter.Trouble) =
        (LetterState.GivenUp, null, letter.Attempts - 1, LetterTroubles.NotNeeded + why);

    private void Note(OutgoingLetter letter, string subject, string text, MailOutcome outcome, string? code)
    {
        (letter.Subject, letter.Text) = (subject, text);
        letter.HeldUntil = null;
        (letter.State, letter.Trouble) = outcome switch
        {
            MailOutcome.Sent => (LetterState.Sent, null),
            MailOutcome.KeptAsFile => (LetterState.KeptAsFile, null),
            MailOutcome.Unsure => (LetterState.Unsure, LetterTroubles.NoAnswer),
            MailOutcome.Bounced => (LetterState.Bounced, LetterTroubles.Bounced(code ?? "5.0.0")),
            MailOutcome.Failed => (letter.Attempts < LetterTroubles.MostAttempts ? LetterState.Waiting : LetterState.GivenUp, LetterTroubles.Failed),
        };
        if (outcome is MailOutcome.Sent or MailOutcome.KeptAsFile)
        {
            letter.SentAt = Now;
        }
        else if (letter.State == LetterState.Waiting)
        {
            letter.NotBefore = Now + LetterTroubles.WaitAfter(letter.Attempts);
        }
    }

    /// <summary>
    /// Writes down what became of a letter. It is true whatever another portal thought meanwhile, and if the database is away it is tried
    /// again: lost, the letter would count as unsure.
    /// </summary>
    private Task ChangeAsync(Guid id, Action<OutgoingLetter> change) => ChangeAsync(id, (_, letter) =>
    {
        change(letter);
        return Task.CompletedTask;
    });

    private async Task ChangeAsync(Guid id, Func<HatcheryDb, OutgoingLetter, Task> change)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await using var db = await databases.CreateDbContextAsync();
                await change(db, await db.OutgoingLetters.SingleAsync(l => l.Id == id));
                if (await TrySaveAsync(db, CancellationToken.None))
                {
                    return;
                }
            }
            catch (Exception e) when (attempt < Tries && e is DbException or DbUpdateException or TimeoutException)
            {
                await Task.Delay(TimeSpan.FromSeconds(attempt), time);
            }
        }
    }

    /// <summary>False when another portal was there first.</summary>
    private static async Task<bool> TrySaveAsync(HatcheryDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }
        catch (DbUpdateConcurrencyException)
        {
            return false;
        }
    }
}
