using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>A sheet of rooms, with their tanks if it names codes: a row a tank, or a row a room.</summary>
public sealed class RoomSheet : IPlaceSheet
{
    private const int LongestCode = 12;

    public PlaceSheet Holds => PlaceSheet.Rooms;

    public IReadOnlyList<SheetField> Fields { get; } =
        [RoomFields.School, RoomFields.Room, RoomFields.Code, .. RoomFields.OfRoom.Select(f => f.Field), .. RoomFields.OfTank.Select(f => f.Field)];

    public IReadOnlyList<SheetField> Keys { get; } = [RoomFields.School, RoomFields.Room];

    public IReadOnlyList<string> Example { get; } = ["Heron Ford Elementary", "Room 3", "A049", "no", "208", "10.5", "foam", "°F", "21", "Fenwick 2019-B", "K3"];

    public async Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel)
    {
        var programme = ask.User.ProgrammeId;
        var schools = await SchoolNames.LoadAsync(db, programme, cancel);
        var rooms = await (
            from room in db.Classrooms
            join school in db.Schools on room.SchoolId equals school.Id
            where school.ProgrammeId == programme
            select room).ToListAsync(cancel);
        var tanks = await db.Tanks.Where(t => t.ProgrammeId == programme).ToDictionaryAsync(t => t.Code, StringComparer.Ordinal, cancel);
        var codes = rows.Select(CodeOf).Where(c => c.Length > 0 && !tanks.ContainsKey(c)).Distinct().ToList();
        var elsewhere = await db.Tanks.Where(t => t.ProgrammeId != programme && codes.Contains(t.Code)).Select(t => t.Code).ToListAsync(cancel);
        var planner = new RoomPlanner(ask, schools, rooms, tanks, [.. elsewhere]);
        return [.. rows.Select(planner.Plan)];
    }

    public async Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        await TakeTanksBackAsync(db, ask, [.. lines.Where(l => l.Thing == PlaceThing.Tank)], cancel);
        await db.SaveChangesAsync(cancel); // Rooms are looked at once their tanks are gone.
        var ofRooms = lines.Where(l => l.Thing == PlaceThing.Room).ToList();
        var ids = ofRooms.Select(l => l.ThingId).ToList();
        var there = await db.Classrooms.Where(r => ids.Contains(r.Id) && db.Schools.Any(s => s.Id == r.SchoolId && s.ProgrammeId == ask.User.ProgrammeId)).ToDictionaryAsync(r => r.Id, cancel);
        var used = await WhatRefers.ToAsync(db, ids, "ClassroomId", [], cancel);
        foreach (var line in ofRooms)
        {
            var room = there.GetValueOrDefault(line.ThingId);
            if (!line.Added || room is null)
            {
                TakenBack.SetBack(line, room, RoomFields.OfRoom);
            }
            else if ((line.Stayed = used.GetValueOrDefault(room.Id) ?? TakenBack.ChangedSince(line, room, RoomFields.OfRoom)) is null)
            {
                db.Classrooms.Remove(room);
            }
        }
    }

    internal static string CodeOf(PlaceCells cells) => cells[RoomFields.Code].ToUpperInvariant();

    internal static bool IsCode(string code) => code.Length is > 0 and <= LongestCode && code.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');

    internal static RoomCode NewCode(Guid tank, DateTime now) =>
        new() { Id = Guid.CreateVersion7(), TankId = tank, Code = RoomCodes.Make(RandomNumberGenerator.GetInt32), IssuedAt = now };

    private static async Task TakeTanksBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel)
    {
        var ids = lines.Select(l => l.ThingId).ToList();
        var there = await db.Tanks.Where(t => t.ProgrammeId == ask.User.ProgrammeId && ids.Contains(t.Id)).ToDictionaryAsync(t => t.Id, cancel);
        var used = await WhatRefers.ToAsync(db, ids, "TankId", [typeof(RoomCode)], cancel);
        var labels = (await db.RoomCodes.Where(c => ids.Contains(c.TankId)).ToListAsync(cancel)).ToLookup(c => c.TankId);
        var keyed = (await db.ApiKeys.Where(k => k.ProgrammeId == ask.User.ProgrammeId).ToListAsync(cancel)).SelectMany(k => k.TankIds).ToHashSet();
        foreach (var line in lines)
        {
            var tank = there.GetValueOrDefault(line.ThingId);
            if (!line.Added || tank is null)
            {
                TakenBack.SetBack(line, tank, RoomFields.OfTank);
                continue;
            }

            line.Stayed = used.GetValueOrDefault(tank.Id) ?? (keyed.Contains(tank.Id) ? "It stays: a logger has a key for it." : null)
                ?? (labels[tank.Id].Count() > 1 ? "It stays: its label was replaced since." : null) ?? TakenBack.ChangedSince(line, tank, RoomFields.OfTank);
            if (line.Stayed is null)
            {
                db.RoomCodes.RemoveRange(labels[tank.Id]);
                db.Tanks.Remove(tank);
            }
        }
    }
}

/// <summary>The schools of a programme by name.</summary>
public sealed class SchoolNames(IReadOnlyList<School> schools)
{
    private readonly ILookup<string, School> byName = schools.ToLookup(s => FieldReads.Same(s.Name));

    public IReadOnlyList<School> All => schools;

    public static async Task<SchoolNames> LoadAsync(HatcheryDb db, Guid programme, CancellationToken cancel) =>
        new(await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == programme).ToListAsync(cancel));

    /// <summary>Null when the row names none of them, and then the row says so.</summary>
    public School? Find(PlaceCells cells, string name)
    {
        var found = byName[FieldReads.Same(name)].ToList();
        if (name.Length > 0 && found.Count != 1)
        {
            cells.Unclear($"“{SheetTexts.Shortened(name)}” is no school of your programme. Expected: a name as in the list of schools; bring in the schools first.");
        }

        return found.Count == 1 ? found[0] : null;
    }
}
