using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

/// <summary>What goes out together and comes back together.</summary>
internal sealed record PlaceRows(
    List<School> Schools, List<Classroom> Rooms, List<Tank> Tanks, List<RoomCode> Codes, List<Closure> Closures, List<SeasonTank> Seasons)
{
    public static PlaceRows Of(List<School>? schools = null, List<Classroom>? rooms = null, List<Tank>? tanks = null) =>
        new(schools ?? [], rooms ?? [], tanks ?? [], [], [], []);
}

/// <summary>
/// Takes a school, a room or a tank out of the register as long as nothing hangs on it: no eggs, no reading, no person. What has a history
/// stays. What was taken out can be put back for a while.
/// </summary>
public sealed class TakeOut(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    public Task<Notice> SchoolAsync(CurrentUser user, Guid schoolId, CancellationToken cancel) => OutAsync(user, PlaceThing.School, async db =>
        PlaceRows.Of(schools: await db.Schools.Where(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId).ToListAsync(cancel)), cancel);

    public Task<Notice> RoomAsync(CurrentUser user, Guid roomId, CancellationToken cancel) => OutAsync(user, PlaceThing.Room, async db =>
        PlaceRows.Of(rooms: await db.Classrooms.Where(r => r.Id == roomId && db.Schools.Any(s => s.Id == r.SchoolId && s.ProgrammeId == user.ProgrammeId)).ToListAsync(cancel)), cancel);

    public Task<Notice> TankAsync(CurrentUser user, string code, CancellationToken cancel) => OutAsync(user, PlaceThing.Tank, async db =>
        PlaceRows.Of(tanks: await db.Tanks.Where(t => t.Code == code && t.ProgrammeId == user.ProgrammeId).ToListAsync(cancel)), cancel);

    public async Task<Notice> PutBackAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var since = Now - TakenOutPlace.Kept;
        if (await db.TakenOutPlaces.SingleOrDefaultAsync(p => p.Id == id && p.ProgrammeId == user.ProgrammeId && p.TakenAt > since, cancel) is not { } place)
        {
            return new Notice(false, "This is back already, or was taken out too long ago. Nothing was changed.");
        }

        var rows = JsonSerializer.Deserialize<PlaceRows>(place.Content)!;
        db.AddRange([.. rows.Schools, .. rows.Rooms, .. rows.Tanks, .. rows.Codes, .. rows.Closures, .. rows.Seasons]);
        db.Remove(place);
        try
        {
            await db.SaveChangesAsync(cancel);
            return new Notice(true, $"Back in the register: {place.Name}.");
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            return new Notice(false, $"{place.Name} was not put back: its name or a tank’s code is used by another by now, or somebody was quicker. Rename that first.");
        }
        catch (DbUpdateException)
        {
            return new Notice(false, $"{place.Name} was not put back: where it belonged is taken out itself. Put that back first.");
        }
    }

    private async Task<Notice> OutAsync(CurrentUser user, PlaceThing thing, Func<HatcheryDb, Task<PlaceRows>> which, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var rows = await GatherAsync(db, await which(db), cancel);
        if (NameOf(rows) is not { } name)
        {
            return new Notice(true, "This is taken out already.");
        }

        if (await WhyNotAsync(db, user, rows, cancel) is { } why)
        {
            return new Notice(false, $"{name} was not taken out. {why}");
        }

        db.RemoveRange([.. rows.Seasons, .. rows.Closures, .. rows.Codes, .. rows.Tanks, .. rows.Rooms, .. rows.Schools]);
        db.Add(new TakenOutPlace
        {
            Id = Guid.CreateVersion7(),
            ProgrammeId = user.ProgrammeId,
            Thing = thing,
            Name = name,
            Content = JsonSerializer.Serialize(rows),
            TakenAt = Now,
            TakenBy = user.PersonId,
        });
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException)
        {
            return new Notice(false, $"{name} was not taken out: somebody used or changed it at this very moment. Look at it again.");
        }

        return new Notice(true, $"Taken out: {name}. It can be put back for {TakenOutPlace.Kept.Days} days, under “Taken out lately” below the schools.");
    }

    private static async Task<PlaceRows> GatherAsync(HatcheryDb db, PlaceRows start, CancellationToken cancel)
    {
        var (schools, rooms, tanks) = (start.Schools, start.Rooms, start.Tanks);
        var schoolIds = schools.ConvertAll(s => s.Id);
        rooms.AddRange(await db.Classrooms.Where(r => schoolIds.Contains(r.SchoolId)).ToListAsync(cancel));
        var roomIds = rooms.ConvertAll(r => r.Id);
        tanks.AddRange(await db.Tanks.Where(t => roomIds.Contains(t.ClassroomId)).ToListAsync(cancel));
        var tankIds = tanks.ConvertAll(t => t.Id);
        return new PlaceRows(
            schools, rooms, tanks,
            await db.RoomCodes.Where(c => tankIds.Contains(c.TankId)).ToListAsync(cancel),
            await db.Closures.Where(c => c.SchoolId != null && schoolIds.Contains(c.SchoolId.Value)).ToListAsync(cancel),
            await db.SeasonTanks.Where(p => tankIds.Contains(p.TankId)).ToListAsync(cancel));
    }

    private static string? NameOf(PlaceRows rows) => rows switch
    {
        { Schools: [var school, ..] } => school.Name,
        { Rooms: [var room, ..] } => room.Name,
        { Tanks: [var tank, ..] } => $"tank {tank.Code}",
        _ => null,
    };

    /// <summary>The model itself is asked what hangs on it; null for nothing.</summary>
    private static async Task<string?> WhyNotAsync(HatcheryDb db, CurrentUser user, PlaceRows rows, CancellationToken cancel)
    {
        var tanks = await WhatRefers.ToAsync(db, rows.Tanks.ConvertAll(t => t.Id), "TankId", [typeof(RoomCode), typeof(SeasonTank)], cancel);
        if (rows.Tanks.Find(t => tanks.ContainsKey(t.Id)) is { } used)
        {
            return $"Something hangs on tank {used.Code}: {tanks[used.Id].Split('(')[^1].TrimEnd('.', ')')}. What can be done: when it is empty, close it for the season on its page of the fish ledger; its history stays, and it takes part in no season that it is not ticked for.";
        }

        var keyed = (await db.ApiKeys.Where(k => k.ProgrammeId == user.ProgrammeId && k.RevokedAt == null).ToListAsync(cancel)).SelectMany(k => k.TankIds).ToHashSet();
        if (rows.Tanks.Find(t => keyed.Contains(t.Id)) is { } logged)
        {
            return $"A logger has a key for tank {logged.Code}. What can be done: revoke that key on the people’s page first.";
        }

        var rooms = await WhatRefers.ToAsync(db, rows.Rooms.ConvertAll(r => r.Id), "ClassroomId", [typeof(Tank)], cancel);
        var schools = await WhatRefers.ToAsync(db, rows.Schools.ConvertAll(s => s.Id), "SchoolId", [typeof(Classroom), typeof(Closure), typeof(Invitation)], cancel);
        var ids = rows.Schools.ConvertAll(s => s.Id);
        if (await db.Invitations.AnyAsync(i => i.SchoolId != null && ids.Contains(i.SchoolId.Value), cancel))
        {
            return "Somebody is or was invited to it, or teaches there. What can be done: leave it without rooms; it asks for nothing then.";
        }

        return rooms.Values.Concat(schools.Values).FirstOrDefault() is { } what
            ? $"Something hangs on it: {what.Split('(')[^1].TrimEnd('.', ')')}. What can be done: give its people another school, and move what lies there; what has a history stays, and can be renamed."
            : null;
    }
}
