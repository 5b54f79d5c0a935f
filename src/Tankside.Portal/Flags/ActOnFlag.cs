using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>What a person does to a flag.</summary>
/// <param name="Turn">The flag's turn as the person saw it; see <see cref="Flag.Turn"/>.</param>
public sealed record FlagAct(Guid FlagId, int Turn, FlagDeed Deed, string? Note = null, Outcome? Outcome = null);

/// <summary>What became of it.</summary>
public abstract record ActOutcome
{
    public sealed record Done(Flag Flag) : ActOutcome;

    /// <summary>Somebody acted in between: nothing was saved, and this is what they did.</summary>
    public sealed record Clash(Flag AsItIs, FlagEvent? Theirs, string? TheirName) : ActOutcome;

    public sealed record Refused(string Why) : ActOutcome;
}

/// <summary>
/// Take, hand back, note, close, reopen. Every act says which turn of the flag it answers; if another person acted since, nothing is saved
/// and both are shown.
/// </summary>
public sealed class ActOnFlag(IDbContextFactory<HatcheryDb> databases, TimeProvider time, RoundFeed feed)
{
    public const int LongestNote = 2000;

    /// <summary>How often an act is tried again when only the judge refreshed the numbers meanwhile.</summary>
    private const int Tries = 5;

    public async Task<ActOutcome> ActAsync(FlagAct act, CurrentUser by, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryActAsync(act, by, cancel);
            }
            catch (DbUpdateException e) when (attempt < Tries && (e is DbUpdateConcurrencyException || e.IsUniqueViolation()))
            {
                // The next try sees whether it was a person (a clash) or the judge (fresher numbers).
            }
        }
    }

    private async Task<ActOutcome> TryActAsync(FlagAct act, CurrentUser by, CancellationToken cancel)
    {
        if (act.Note is { Length: > LongestNote })
        {
            return new ActOutcome.Refused($"The note is longer than {LongestNote} characters; nothing was saved.");
        }

        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var flag = await db.Flags.SingleOrDefaultAsync(f => f.Id == act.FlagId && f.ProgrammeId == by.ProgrammeId, cancel);
        if (flag is null)
        {
            return new ActOutcome.Refused("This flag is not in your programme.");
        }

        if (flag.Turn != act.Turn)
        {
            var theirs = await db.FlagEvents.Where(e => e.FlagId == flag.Id && e.By != null).OrderByDescending(e => e.Id).FirstOrDefaultAsync(cancel);
            var name = theirs is null ? null : await db.Users.Where(p => p.Id == theirs.By).Select(p => p.Name).SingleOrDefaultAsync(cancel);
            return new ActOutcome.Clash(flag, theirs, name);
        }

        if (await WhyNotAsync(db, flag, act, by, cancel) is { } why)
        {
            return new ActOutcome.Refused(why);
        }

        Apply(flag, act, by, now);
        db.FlagEvents.Add(new FlagEvent { FlagId = flag.Id, At = now, By = by.PersonId, Deed = act.Deed, Note = Text(act.Note), Outcome = act.Outcome, Urgency = flag.Urgency });
        await db.SaveChangesAsync(cancel);
        feed.Tell([flag.ProgrammeId]);
        return new ActOutcome.Done(flag);
    }

    private static async Task<string?> WhyNotAsync(HatcheryDb db, Flag flag, FlagAct act, CurrentUser by, CancellationToken cancel) => act.Deed switch
    {
        FlagDeed.Taken or FlagDeed.Closed when flag.State == FlagState.Settled => "This flag is settled already.",
        FlagDeed.HandedBack when flag.TakenBy != by.PersonId => "Only the person who took a flag can hand it back.",
        FlagDeed.Noted when Text(act.Note) is null => "There is nothing in the note.",
        FlagDeed.Closed when act.Outcome is null => "Say how it ended.",
        FlagDeed.Reopened when flag.State == FlagState.Open => "This flag is open already.",
        FlagDeed.Reopened when await db.Flags.AnyAsync(f => f.TankId == flag.TankId && f.Kind == flag.Kind && f.State == FlagState.Open, cancel) =>
            "A newer flag of this kind is open at this tank.",
        _ => null,
    };

    private static void Apply(Flag flag, FlagAct act, CurrentUser by, DateTime now)
    {
        flag.Turn++;
        flag.UpdatedAt = now;
        switch (act.Deed)
        {
            case FlagDeed.Taken:
                (flag.TakenBy, flag.TakenAt) = (by.PersonId, now);
                break;
            case FlagDeed.HandedBack:
                (flag.TakenBy, flag.TakenAt) = (null, null);
                break;
            case FlagDeed.Closed:
                (flag.State, flag.Settlement, flag.SettledAt) = (FlagState.Settled, Settlement.Closed, now);
                break;
            case FlagDeed.Reopened:
                (flag.State, flag.Settlement, flag.SettledAt) = (FlagState.Open, null, null);
                break;
            case FlagDeed.Noted:
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(act), act.Deed, "not a person's deed");
        }
    }

    private static string? Text(string? note) => string.IsNullOrWhiteSpace(note) ? null : note.Trim();
}
