using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>What a run's plan goes by.</summary>
public sealed class TermsForm
{
    public string? Name { get; set; }

    public string? Day { get; set; }

    public string? KmPerHour { get; set; }

    public string? Detour { get; set; }

    public string? LongestOut { get; set; }

    public string? TalkMinutes { get; set; }

    public string? DropMinutes { get; set; }

    /// <summary>The version that was looked at.</summary>
    public int Version { get; set; }

    public static TermsForm Of(DeliveryRun run) => new()
    {
        Name = run.Name,
        Day = run.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        KmPerHour = Plain(run.KmPerHour),
        Detour = Plain(run.Detour),
        LongestOut = Plain(run.LongestOut),
        TalkMinutes = Plain(run.TalkMinutes),
        DropMinutes = Plain(run.DropMinutes),
        Version = run.Version,
    };

    private static string Plain(double value) => value.ToString(CultureInfo.InvariantCulture);
}

/// <summary>Changes a run's name, day, speed and times, and takes places and drivers out of it that nothing hangs on.</summary>
public sealed class EditTerms(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<Notice?> KeepAsync(CurrentUser user, Guid runId, TermsForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var fields = new RunFields(refuse);
        var name = fields.Name(nameof(form.Name), form.Name, "Give the run a short name, such as R1. It stands on the sheets and in the receipts.");
        var on = fields.Day(nameof(form.Day), form.Day);
        var speed = fields.Number(nameof(form.KmPerHour), form.KmPerHour, 10, 120, "the speed over the whole way in km/h");
        var detour = fields.Number(nameof(form.Detour), form.Detour, 1, 3, "how many times the beeline the roads are,");
        var longest = fields.Whole(nameof(form.LongestOut), form.LongestOut, 15, 1440, "the minutes that eggs may be on the way");
        var talk = fields.Whole(nameof(form.TalkMinutes), form.TalkMinutes, 5, 180, "the minutes of a visit with a talk");
        var drop = fields.Whole(nameof(form.DropMinutes), form.DropMinutes, 5, 180, "the minutes of a visit without");
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { } run)
        {
            return new Notice(false, "This run is gone. Nothing was changed.");
        }

        if (run.Version != form.Version)
        {
            form.Version = run.Version;
            fields.Refuse("", "Somebody changed this run, or it was planned, meanwhile. Nothing of yours was saved; what you typed is kept. Send it again if it still holds.");
        }

        if (fields.AllGood && on != run.On)
        {
            await CheckDayAsync(db, fields, run, on, cancel);
        }

        if (fields.AllGood && await db.DeliveryRuns.AnyAsync(r => r.SeasonId == run.SeasonId && r.Name == name && r.Id != runId, cancel))
        {
            fields.Refuse(nameof(form.Name), "This season has a run of this name already. Give another name.");
        }

        if (!fields.AllGood)
        {
            return null;
        }

        (run.Name, run.On, run.KmPerHour, run.Detour, run.LongestOut, run.TalkMinutes, run.DropMinutes) = (name, on, speed, detour, longest, talk, drop);
        run.Changed();
        return await EditRun.SavedAsync(db, run.PlannedAt is null ? "Kept." : "Kept. Plan again, and the rounds follow.", cancel);
    }

    /// <summary>Eggs that were ticked on the way were on the way on that day.</summary>
    private static async Task CheckDayAsync(HatcheryDb db, RunFields fields, DeliveryRun run, DateOnly on, CancellationToken cancel)
    {
        if (await db.RunTicks.AnyAsync(t => t.RunId == run.Id, cancel))
        {
            fields.Refuse(nameof(TermsForm.Day), "Stops of this run are ticked already, so it has its day. Make a new run for another day.");
        }
        else if (!await db.Seasons.AnyAsync(s => s.Id == run.SeasonId && s.StartsOn <= on && on <= s.EndsOn, cancel))
        {
            fields.Refuse(nameof(TermsForm.Day), "This day lies outside the run's season. Please look at the day again.");
        }
    }

    public async Task<Notice> RemovePlaceAsync(CurrentUser user, Guid runId, Guid placeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { } run || await db.RunPlaces.SingleOrDefaultAsync(p => p.Id == placeId && p.RunId == runId, cancel) is not { } place)
        {
            return new Notice(true, "This place is not in the run any more.");
        }

        if (await db.RunDrivers.Where(d => d.DepotId == placeId).Select(d => d.Name).ToListAsync(cancel) is { Count: > 0 } names)
        {
            return new Notice(false, $"{string.Join(", ", names)} loads at {place.Name}. Take the driver out of the run first; nothing was changed.");
        }

        db.Remove(place);
        run.Changed();
        return await EditRun.SavedAsync(db, $"{place.Name} is taken out of this run.", cancel);
    }

    /// <summary>Only a driver whom no tick names and no stop is kept with; others drop out, which the run's page does.</summary>
    public async Task<Notice> RemoveDriverAsync(CurrentUser user, Guid runId, Guid driverId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { } run || await db.RunDrivers.SingleOrDefaultAsync(d => d.Id == driverId && d.RunId == runId, cancel) is not { } driver)
        {
            return new Notice(true, "This driver is not in the run any more.");
        }

        if (await db.RunTicks.AnyAsync(t => t.DriverId == driverId, cancel))
        {
            return new Notice(false, $"{driver.Name} has ticked stops of this run, which the account of the eggs names. Let {driver.Name} drop out on the run's page instead; nothing was changed.");
        }

        foreach (var stop in await db.RunStops.Where(s => s.RunId == runId && (s.DriverId == driverId || s.PinnedDriverId == driverId)).ToListAsync(cancel))
        {
            stop.PinnedDriverId = stop.PinnedDriverId == driverId ? null : stop.PinnedDriverId;
            if (stop.DriverId == driverId)
            {
                (stop.DriverId, stop.Place, stop.Begins, stop.Ends) = (null, null, null, null);
            }
        }

        db.Remove(driver);
        run.Changed();
        return await EditRun.SavedAsync(db, $"{driver.Name} is taken out of this run.{(run.PlannedAt is null ? "" : " Plan again, and the others take what they can.")}", cancel);
    }
}
