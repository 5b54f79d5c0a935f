using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>What a person does to a flag.</summary>
/// <param name="Turn">The flag's turn as the person saw it; see <see cref="Flag.Turn"/>.</param>
/// <param name="Until">When what was promised is due, or until when it may rest.</param>
/// <param name="To">Who is to see to it.</param>
public sealed record FlagAct(
    Guid FlagId, int Turn, FlagDeed Deed, string? Note = null, Outcome? Outcome = null, TroubleCause? Cause = null, DateTime? Until = null, Guid? To = null);

/// <summary>What became of it.</summary>
public abstract record ActOutcome
{
    public sealed record Done(Flag Flag) : ActOutcome;

    /// <summary>Somebody acted in between: nothing was saved, and this is what they did.</summary>
    public sealed record Clash(Flag AsItIs, FlagEvent? Theirs, string? TheirName) : ActOutcome;

    public sealed record Refused(string Why) : ActOutcome;
}

/// <summary>
/// Everything a person does to a flag. Every act says which turn of the flag it answers; if another person acted since, nothing is saved
/// and both are shown.
/// </summary>
public sealed class ActOnFlag(IDbContextFactory<HatcheryDb> databases, TimeProvider time, RoundFeed feed)
{
    public const int LongestNote = 2000;

    /// <summary>How often an act is tried again when only the judge refreshed the numbers meanwhile.</summary>
    private const int Tries = 5;

    /// <summary>Nothing may rest longer: a promise for next month is a note.</summary>
    public static readonly TimeSpan LongestRest = TimeSpan.FromDays(14);

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

    public async Task<bool> IsSettledAsync(Guid flagId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Flags.AnyAsync(f => f.Id == flagId && f.State == FlagState.Settled, cancel);
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
            return await ClashAsync(db, flag, cancel);
        }

        if (await WhyNotAsync(db, flag, act, by, now, cancel) is { } why)
        {
            return new ActOutcome.Refused(why);
        }

        Apply(flag, act, by, now);
        db.FlagEvents.Add(Line(flag, act, by, now));
        await db.SaveChangesAsync(cancel);
        feed.Tell([flag.ProgrammeId]);
        return new ActOutcome.Done(flag);
    }

    /// <summary>What the other person did meanwhile.</summary>
    internal static async Task<ActOutcome.Clash> ClashAsync(HatcheryDb db, Flag flag, CancellationToken cancel)
    {
        var theirs = await db.FlagEvents.Where(e => e.FlagId == flag.Id && e.By != null).OrderByDescending(e => e.Id).FirstOrDefaultAsync(cancel);
        var name = theirs is null ? null : await db.Users.Where(p => p.Id == theirs.By).Select(p => p.Name).SingleOrDefaultAsync(cancel);
        return new ActOutcome.Clash(flag, theirs, name);
    }

    internal static FlagEvent Line(Flag flag, FlagAct act, CurrentUser by, DateTime now) => new()
    {
        FlagId = flag.Id,
        At = now,
        By = by.PersonId,
        Deed = act.Deed,
        Note = Text(act.Note),
        Outcome = act.Outcome,
        Cause = act.Cause,
        Until = act.Until,
        To = act.To,
        Urgency = flag.Urgency,
    };

    private static async Task<string?> WhyNotAsync(HatcheryDb db, Flag flag, FlagAct act, CurrentUser by, DateTime now, CancellationToken cancel) => act.Deed switch
    {
        not (FlagDeed.Noted or FlagDeed.Called or FlagDeed.NotReached or FlagDeed.Reopened) when flag.State == FlagState.Settled =>
            "This flag is settled already.",
        FlagDeed.SpareReserved or FlagDeed.SpareGivenBack or FlagDeed.FirstAidSent => "This is written down only together with what it tells.",
        FlagDeed.HandedBack when flag.TakenBy != by.PersonId && !await GaveItAsync(db, flag, by, cancel) => "Only the person who has a flag, or gave it, can hand it back.",
        FlagDeed.Assigned when act.To is not { } to || !await MayTakeAsync(db, to, by.ProgrammeId, cancel) => "Choose somebody of this programme to give it to.",
        FlagDeed.Noted when Text(act.Note) is null => "There is nothing in the note.",
        FlagDeed.Promised when Text(act.Note) is null => "Say what was promised.",
        FlagDeed.Waiting when Text(act.Note) is null => "Say why it can wait.",
        FlagDeed.Promised or FlagDeed.Waiting when !(act.Until > now && act.Until <= now + LongestRest) =>
            "The time must lie ahead, at most fourteen days.",
        FlagDeed.WaitOver when flag.RestsUntil is null => "This flag stands in the round already.",
        FlagDeed.Closed when act.Outcome is null => "Say how it ended.",
        FlagDeed.Reopened when flag.State == FlagState.Open => "This flag is open already.",
        FlagDeed.Reopened when await HasNewerAsync(db, flag, cancel) => "A newer flag of this kind is open here.",
        _ => null,
    };

    private static Task<bool> MayTakeAsync(HatcheryDb db, Guid person, Guid programme, CancellationToken cancel) =>
        db.Memberships.AnyAsync(m => m.PersonId == person && m.ProgrammeId == programme && (m.Role == Role.Coordinator || m.Role == Role.ProgrammeLead), cancel);

    /// <summary>The last thing that a person did to it was this person's giving it away.</summary>
    private static async Task<bool> GaveItAsync(HatcheryDb db, Flag flag, CurrentUser by, CancellationToken cancel) =>
        await db.FlagEvents.Where(e => e.FlagId == flag.Id && e.By != null).OrderByDescending(e => e.Id).FirstOrDefaultAsync(cancel)
            is { Deed: FlagDeed.Assigned } last && last.By == by.PersonId;

    private static Task<bool> HasNewerAsync(HatcheryDb db, Flag flag, CancellationToken cancel) => db.Flags.AnyAsync(
        f => f.ProgrammeId == flag.ProgrammeId && f.TankId == flag.TankId && f.CauseBy == flag.CauseBy && f.CauseCode == flag.CauseCode
            && f.Kind == flag.Kind && f.State == FlagState.Open,
        cancel);

    private static void Apply(Flag flag, FlagAct act, CurrentUser by, DateTime now)
    {
        flag.Turn++;
        flag.UpdatedAt = now;
        flag.PromiseFellDue = false;
        switch (act.Deed)
        {
            case FlagDeed.Taken:
                (flag.TakenBy, flag.TakenAt) = (by.PersonId, now);
                break;
            case FlagDeed.Assigned:
                (flag.TakenBy, flag.TakenAt) = (act.To, now);
                break;
            case FlagDeed.HandedBack:
                (flag.TakenBy, flag.TakenAt) = (null, null);
                break;
            case FlagDeed.Promised:
                (flag.PromiseDue, flag.WaitUntil) = (act.Until, null);
                break;
            case FlagDeed.Waiting:
                (flag.PromiseDue, flag.WaitUntil) = (null, act.Until);
                break;
            case FlagDeed.WaitOver:
                (flag.PromiseDue, flag.WaitUntil) = (null, null);
                break;
            case FlagDeed.Closed:
                (flag.State, flag.Settlement, flag.SettledAt) = (FlagState.Settled, Settlement.Closed, now);
                (flag.PromiseDue, flag.WaitUntil) = (null, null);
                break;
            case FlagDeed.Reopened:
                (flag.State, flag.Settlement, flag.SettledAt) = (FlagState.Open, null, null);
                break;
            case FlagDeed.Noted or FlagDeed.Called or FlagDeed.NotReached:
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(act), act.Deed, "not a person's deed");
        }
    }

    internal static string? Text(string? note) => string.IsNullOrWhiteSpace(note) ? null : note.Trim();
}
