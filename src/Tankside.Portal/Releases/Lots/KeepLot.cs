using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

/// <summary>Enters a lot, or changes what is written of one.</summary>
public sealed class KeepLot(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <param name="code">The lot to change; null for a new one.</param>
    public Task<Notice?> HandleAsync(CurrentUser user, string? code, LotForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, code, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string? code, LotForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var hand = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var typed = new TypedFields(refuse);
        if (hand.Season is not { } season)
        {
            typed.Refuse("", "There is no season yet that a lot could belong to. Nothing was kept.");
            return null;
        }

        if (code is null && await db.EggLots.AnyAsync(l => l.Id == form.Id, cancel))
        {
            return new Notice(true, "This lot was entered already.");
        }

        var lot = code is null
            ? new EggLot { Id = form.Id, ProgrammeId = user.ProgrammeId, SeasonId = season.Id, Code = "" }
            : await db.EggLots.SingleAsync(l => l.SeasonId == season.Id && l.Code == code, cancel);
        if (code is not null && lot.Version != form.Version)
        {
            typed.Refuse("", "Somebody else has changed this lot meanwhile. Nothing was kept; open the lot again and look at both.");
            return null;
        }

        new LotReader(form, typed, hand.Today).Into(lot);
        if (await db.EggLots.AnyAsync(l => l.SeasonId == season.Id && l.Code == lot.Code && l.Id != lot.Id, cancel))
        {
            typed.Refuse(nameof(form.Code), $"There is a lot {lot.Code} in this season already.");
        }

        if (code is not null && db.Entry(lot).Property(l => l.Species).IsModified && await db.Receipts.AnyAsync(r => r.LotId == lot.Id, cancel))
        {
            typed.Refuse(nameof(form.Species), "Eggs of this lot stand in tanks already, and permits go by their species. Enter another lot instead.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        if (code is null)
        {
            db.EggLots.Add(lot);
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, code is null
            ? $"Lot {lot.Code} is entered. Next: which tanks get how many of its eggs."
            : $"Lot {lot.Code} is kept as changed. The dates of its tanks go by it from now on.");
    }
}
