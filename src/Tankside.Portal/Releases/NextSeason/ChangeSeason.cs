using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Releases.Sealing;
using Tankside.Storage;

namespace Tankside.Portal.Releases.NextSeason;

/// <summary>Changes a season's name and days while its account is open; takes out one that nothing was entered into.</summary>
public sealed class ChangeSeason(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private const string Gone = "This season was taken out meanwhile. Nothing was saved.";

    /// <summary>Null for a season that is not the asker's.</summary>
    public async Task<Season?> FindAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Seasons.AsNoTracking().SingleOrDefaultAsync(s => s.Id == id && s.ProgrammeId == user.ProgrammeId, cancel);
    }

    public Task<Notice?> HandleAsync(CurrentUser user, Guid id, SeasonForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, id, form, refuse, cancel), refuse);

    public async Task<Notice> TakeOutAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var seasons = await db.Seasons.Where(s => s.ProgrammeId == user.ProgrammeId).ToListAsync(cancel);
        if (seasons.Find(s => s.Id == id) is not { } season)
        {
            return new Notice(true, "This season is taken out already.");
        }

        if (seasons.Count == 1)
        {
            return new Notice(false, $"Season {season.Name} is the only one, so it stays. Change its name and days instead.");
        }

        if ((await WhatRefers.ToAsync(db, [id], "SeasonId", [typeof(SeasonTank)], cancel)).GetValueOrDefault(id) is { } used)
        {
            return new Notice(false, $"Season {season.Name} was not taken out. {used} Change its name and days instead.");
        }

        db.RemoveRange(await db.SeasonTanks.Where(p => p.SeasonId == id).ToListAsync(cancel));
        db.Remove(season);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            return new Notice(false, $"Season {season.Name} was not taken out: somebody entered something into it at this very moment.");
        }

        return new Notice(true, $"Taken out: season {season.Name}. Tanks that were opened or closed for it stay so.");
    }

    private async Task<Notice?> TryAsync(CurrentUser user, Guid id, SeasonForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var typed = new TypedFields(refuse);
        var seasons = await db.Seasons.Where(s => s.ProgrammeId == user.ProgrammeId).ToListAsync(cancel);
        if (seasons.Find(s => s.Id == id) is not { } season)
        {
            typed.Refuse("", Gone);
            return null;
        }

        if (await Seals.IsClosedAsync(db, id, cancel))
        {
            typed.Refuse("", $"The account of season {season.Name} is sealed, so its name and days stay. Nothing was saved.");
            return null;
        }

        if (season.Version != form.Version)
        {
            form.Version = season.Version;
            typed.Refuse("", $"Somebody changed this season meanwhile: it is now {season.Name}, {SeasonAtHand.Day(season.StartsOn)} to {SeasonAtHand.Day(season.EndsOn)}. What you typed is kept below; send it again if it should replace that.");
            return null;
        }

        var now = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var lines = db.Ledger.Where(e => e.SeasonId == id);
        (DateOnly, DateOnly)? entered = await lines.AnyAsync(cancel)
            ? (now.Clock.Day(await lines.MinAsync(e => e.At, cancel)), now.Clock.Day(await lines.MaxAsync(e => e.At, cancel)))
            : null;
        if (TypedSeason.Read(form, [.. seasons.Where(s => s.Id != id)], entered, typed) is not { } read)
        {
            return null;
        }

        (season.Name, season.StartsOn, season.EndsOn) = (read.Name, read.StartsOn, read.EndsOn);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Saved: season {season.Name} runs from {SeasonAtHand.Day(season.StartsOn)} to {SeasonAtHand.Day(season.EndsOn)}.");
    }
}
