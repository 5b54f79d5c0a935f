using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>What is done to a mark after it was made.</summary>
public enum SweepDeed
{
    /// <summary>It is over.</summary>
    End,

    /// <summary>It was a mistake: it never held.</summary>
    TakeBack,

    /// <summary>Ending it, or taking it back, was a mistake.</summary>
    Reopen,
}

/// <summary>Ends a mark, takes it back, or opens it again. Its tanks are judged again at once.</summary>
public sealed class EndSweep(IDbContextFactory<HatcheryDb> databases, TimeProvider time, NewFacts newFacts, RoundFeed feed)
{
    public async Task<Notice?> HandleAsync(CurrentUser user, Guid sweepId, SweepDeed deed, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.AreaSweeps.SingleOrDefaultAsync(s => s.Id == sweepId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } sweep)
        {
            return null;
        }

        if (sweep.EndedAt is null == (deed == SweepDeed.Reopen))
        {
            return new Notice(true, deed == SweepDeed.Reopen ? "The mark stands already." : "The mark is ended already.");
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        (sweep.EndedAt, sweep.EndedBy) = deed switch
        {
            SweepDeed.End => (now > sweep.From ? now : sweep.From.AddMilliseconds(1), user.PersonId),
            SweepDeed.TakeBack => (sweep.From, user.PersonId),
            SweepDeed.Reopen => ((DateTime?)null, (Guid?)null),
        };
        db.HaveJudged(await db.OpenTanksOf(db.SchoolsUnder(sweep)).Select(t => t.Id).ToListAsync(cancel), now);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "Somebody else changed this mark at the same moment. This is how it stands now.");
        }

        newFacts.Tell();
        feed.Tell([user.ProgrammeId]);
        return new Notice(true, Words(deed, sweep.Reason));
    }

    private static string Words(SweepDeed deed, SweepReason reason) => (deed, reason) switch
    {
        (SweepDeed.End, SweepReason.PowerCut) => "The power is back. Tanks that nobody has seen since it went stay in the round until the next reading.",
        (SweepDeed.End, _) => "The mark is ended.",
        (SweepDeed.TakeBack, _) => "The mark is taken back, as if it had never been made. Messages that went out cannot be taken back.",
        (SweepDeed.Reopen, _) => "The mark stands again.",
        _ => throw new ArgumentOutOfRangeException(nameof(deed), deed, "not a deed"),
    };
}
