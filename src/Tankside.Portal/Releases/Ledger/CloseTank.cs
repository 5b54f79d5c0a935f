using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>Closing a tank as it was shown to the person.</summary>
public sealed class CloseForm
{
    /// <summary>How many fish the page said were left; another number by now is told before anything is closed.</summary>
    public int LeftAsShown { get; set; }
}

/// <summary>
/// Closes a tank: it holds nothing any more, and what the ledger still leaves in it becomes unaccounted. Opening it again gives that back.
/// </summary>
public sealed class CloseTank(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public Task<Notice?> CloseAsync(CurrentUser user, string code, CloseForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryCloseAsync(user, code, form, refuse, cancel), refuse);

    public Task<Notice?> OpenAsync(CurrentUser user, string code, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryOpenAsync(user, code, cancel), refuse);

    private async Task<Notice?> TryCloseAsync(CurrentUser user, string code, CloseForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var tank = await TanksInReach.Of(db, user).SingleAsync(t => t.Code == code, cancel);
        if (tank.ClosedAt is not null)
        {
            return new Notice(true, say.Of("{0} is closed.", code));
        }

        await using var turn = await SeasonTurn.ShareAsync(db, season.Season!.Id, cancel);
        if (await Seals.IsClosedAsync(db, season.Season!.Id, cancel))
        {
            refuse("", Seals.Closed);
            return null;
        }

        var left = TankBalance.Of(await TankLedger.EntriesAsync(db, tank.Id, season.Season!.Id, cancel), closed: false).StillInTank;
        if (left != form.LeftAsShown)
        {
            refuse("", say.Of("The ledger changed meanwhile: it leaves {0} in this tank now, not {1}. Nothing is closed yet.", Figures.Of(left), Figures.Of(form.LeftAsShown)));
            return null;
        }

        tank.ClosedAt = season.Now;
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, left == 0
            ? say.Of("{0} is closed. Nothing was left in it.", code)
            : say.Count(left, "{1} is closed. {0} that the ledger still left in it is unaccounted for now.", "{1} is closed. {0} that the ledger still left in it are unaccounted for now.", code));
    }

    private async Task<Notice?> TryOpenAsync(CurrentUser user, string code, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var tank = await TanksInReach.Of(db, user).SingleAsync(t => t.Code == code, cancel);
        tank.ClosedAt = null;
        await db.SaveChangesAsync(cancel);
        return new Notice(true, say.Of("{0} is open again. It holds what its ledger leaves in it.", code));
    }
}
