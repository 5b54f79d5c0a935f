using System.Globalization;
using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

public sealed class RunForm
{
    public string? Name { get; set; }

    public string? Day { get; set; }
}

public sealed class PlaceForm
{
    public string? Kind { get; set; }

    public string? Name { get; set; }

    public string? Latitude { get; set; }

    public string? Longitude { get; set; }
}

public sealed class DriverForm
{
    public string? Person { get; set; }

    public string? Name { get; set; }

    public string? Phone { get; set; }

    public string? Depot { get; set; }

    public string? Eggs { get; set; }

    public string? From { get; set; }

    public string? Until { get; set; }
}

/// <summary>What is changed about a run besides its stops: the run itself, its places and drivers.</summary>
public sealed class EditRun(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private const int MostEggs = 20_000;

    /// <summary>The id of the new run; null when it was refused.</summary>
    public async Task<Guid?> AddAsync(CurrentUser user, RunForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var fields = new RunFields(refuse);
        var name = fields.Name(nameof(form.Name), form.Name, "Give the run a short name, such as R1. It stands on the sheets and in the receipts.");
        var on = fields.Day(nameof(form.Day), form.Day);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await db.Seasons.SingleOrDefaultAsync(s => s.ProgrammeId == user.ProgrammeId && s.StartsOn <= on && on <= s.EndsOn, cancel);
        if (fields.AllGood && season is null)
        {
            fields.Refuse(nameof(form.Day), "This day lies in none of the programme's seasons. Please look at the day again.");
        }

        if (fields.AllGood && await db.DeliveryRuns.AnyAsync(r => r.SeasonId == season!.Id && r.Name == name, cancel))
        {
            fields.Refuse(nameof(form.Name), "This season has a run of this name already. Give another name.");
        }

        if (!fields.AllGood)
        {
            return null;
        }

        var run = new DeliveryRun { Id = Guid.CreateVersion7(), ProgrammeId = user.ProgrammeId, SeasonId = season!.Id, Name = name, On = on };
        db.Add(run);
        await AddLastPlacesAsync(db, run, cancel);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            fields.Refuse(nameof(form.Name), "This season has a run of this name already. Give another name.");
            return null;
        }

        return run.Id;
    }

    /// <summary>Depots seldom change: a new run begins with those of the run before.</summary>
    private static async Task AddLastPlacesAsync(HatcheryDb db, DeliveryRun run, CancellationToken cancel)
    {
        var last = await db.DeliveryRuns.Where(r => r.ProgrammeId == run.ProgrammeId).OrderByDescending(r => r.On).FirstOrDefaultAsync(cancel);
        if (last is null)
        {
            return;
        }

        (run.Detour, run.KmPerHour, run.LongestOut, run.TalkMinutes, run.DropMinutes) = (last.Detour, last.KmPerHour, last.LongestOut, last.TalkMinutes, last.DropMinutes);
        foreach (var place in await db.RunPlaces.AsNoTracking().Where(p => p.RunId == last.Id).ToListAsync(cancel))
        {
            db.Add(new RunPlace { Id = Guid.CreateVersion7(), RunId = run.Id, Kind = place.Kind, Name = place.Name, Latitude = place.Latitude, Longitude = place.Longitude });
        }
    }

    public async Task<Notice?> AddPlaceAsync(CurrentUser user, Guid runId, PlaceForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var fields = new RunFields(refuse);
        var name = fields.Name(nameof(form.Name), form.Name, "Name the place, such as the hatchery's name.");
        var latitude = fields.Number(nameof(form.Latitude), form.Latitude, -90, 90, "the latitude in degrees, north positive,");
        var longitude = fields.Number(nameof(form.Longitude), form.Longitude, -180, 180, "the longitude in degrees, west negative,");
        if (!Enum.TryParse<RunPlaceKind>(form.Kind, out var kind) || !Enum.IsDefined(kind))
        {
            fields.Refuse(nameof(form.Kind), "Say whether eggs are loaded there or held there.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        if (!fields.AllGood || await RunAsync(db, user, runId, cancel) is not { } run)
        {
            return null;
        }

        db.Add(new RunPlace { Id = Guid.CreateVersion7(), RunId = run.Id, Kind = kind, Name = name, Latitude = latitude, Longitude = longitude });
        run.Changed();
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"{name} is added.");
    }

    public async Task<Notice?> AddDriverAsync(CurrentUser user, Guid runId, DriverForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var fields = new RunFields(refuse);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var member = Guid.TryParse(form.Person, out var person)
            ? await db.Users.SingleOrDefaultAsync(p => p.Id == person && db.Memberships.Any(m => m.PersonId == p.Id && m.ProgrammeId == user.ProgrammeId), cancel) : null;
        var name = member?.Name ?? fields.Name(nameof(form.Name), form.Name, "Choose a member, or type the name of the adult who drives.");
        var phone = string.IsNullOrWhiteSpace(form.Phone) ? member?.PhoneNumber : form.Phone.Trim();
        if (member is null && phone is null)
        {
            fields.Refuse(nameof(form.Phone), "Give a telephone number: on the day somebody has to reach this driver.");
        }

        var eggs = fields.Whole(nameof(form.Eggs), form.Eggs, 1, MostEggs, "how many eggs fit into the car, as packed,");
        var from = fields.Time(nameof(form.From), form.From) ?? new TimeOnly(7, 0);
        var until = fields.Time(nameof(form.Until), form.Until) ?? new TimeOnly(15, 0);
        if (until <= from)
        {
            fields.Refuse(nameof(form.Until), "The driver is back before leaving. Please look at both times.");
        }

        var depots = await db.RunPlaces.Where(p => p.RunId == runId && p.Kind == RunPlaceKind.Depot).ToListAsync(cancel);
        if (depots.FirstOrDefault(d => d.Id.ToString() == form.Depot) is not { } depot)
        {
            fields.Refuse(nameof(form.Depot), depots.Count == 0 ? "Add the place where eggs are loaded first." : "Choose where this driver loads.");
            return null;
        }

        if (!fields.AllGood || await RunAsync(db, user, runId, cancel) is not { } run)
        {
            return null;
        }

        db.Add(new RunDriver
        {
            Id = Guid.CreateVersion7(),
            RunId = run.Id,
            Number = (await db.RunDrivers.Where(d => d.RunId == runId).MaxAsync(d => (int?)d.Number, cancel) ?? 0) + 1,
            PersonId = member?.Id,
            Name = name,
            Phone = phone,
            DepotId = depot.Id,
            Eggs = eggs,
            From = from,
            Until = until,
            Code = RoomCodes.Make(RandomNumberGenerator.GetInt32),
        });
        run.Changed();
        return await SavedAsync(db, $"{name} drives, for at most {eggs.ToString("N0", CultureInfo.InvariantCulture)} eggs.", cancel);
    }

    /// <summary>A driver drops out, or can drive after all.</summary>
    public async Task<Notice> TurnDriverAsync(CurrentUser user, Guid runId, Guid driverId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await RunAsync(db, user, runId, cancel) is not { } run || await db.RunDrivers.SingleOrDefaultAsync(d => d.Id == driverId && d.RunId == runId, cancel) is not { } driver)
        {
            return new Notice(false, "This driver is not in the run any more. Nothing was changed.");
        }

        driver.OutAt = driver.OutAt is null ? Instants.ToMillisecond(time.GetUtcNow().UtcDateTime) : null;
        run.Changed();
        return await SavedAsync(db, driver.OutAt is null ? $"{driver.Name} drives again. Plan once more." : $"{driver.Name} is out. Plan again, and the others take what they can.", cancel);
    }

    internal static Task<DeliveryRun?> RunAsync(HatcheryDb db, CurrentUser user, Guid runId, CancellationToken cancel) =>
        db.DeliveryRuns.SingleOrDefaultAsync(r => r.Id == runId && r.ProgrammeId == user.ProgrammeId, cancel);

    internal static async Task<Notice> SavedAsync(HatcheryDb db, string told, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return new Notice(true, told);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            return new Notice(false, "Somebody else changed this run at the same moment. Nothing was saved; please look at it and send it once more.");
        }
    }
}
