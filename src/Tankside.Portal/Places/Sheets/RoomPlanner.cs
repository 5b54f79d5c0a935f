using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Looks at the rows of one sheet of rooms, in their order: a room that a row adds is there for the rows below it.</summary>
internal sealed class RoomPlanner(
    PlaceAsk ask, SchoolNames schools, IReadOnlyList<Classroom> rooms, Dictionary<string, Tank> tanks, HashSet<string> takenElsewhere)
{
    private readonly Dictionary<(Guid School, string Name), Classroom> there = rooms.GroupBy(r => (r.SchoolId, FieldReads.Same(r.Name))).ToDictionary(g => g.Key, g => g.First());
    private readonly Dictionary<(Guid School, string Name), Classroom> added = [];
    private readonly Dictionary<string, int> before = new(StringComparer.Ordinal);

    public PlannedRow Plan(PlaceCells cells)
    {
        var (schoolName, roomName, code) = (cells.Need(RoomFields.School), cells.Need(RoomFields.Room), RoomSheet.CodeOf(cells));
        var school = schools.Find(cells, schoolName);
        var name = $"{schoolName}, {roomName}{(code.Length > 0 ? $", {code}" : "")}";
        if (roomName.Length > 100)
        {
            cells.Unclear("The room’s name is longer than 100 signs.");
        }

        if (school is null || roomName.Length is 0 or > 100)
        {
            return PlannedRow.Of(cells, name, []);
        }

        var key = (school.Id, FieldReads.Same(roomName));
        if (!before.TryAdd($"{key} {code}", cells.Row.Number))
        {
            cells.Unclear($"The same room{(code.Length > 0 ? " and tank stand" : " stands")} in row {before[$"{key} {code}"]} already. Expected: a row a tank.");
            return PlannedRow.Of(cells, name, []);
        }

        var room = there.GetValueOrDefault(key);
        var changes = added.ContainsKey(key) ? [] : cells.Compare(room, RoomFields.OfRoom);
        var fresh = room ?? added.GetValueOrDefault(key) ?? new Classroom { Id = Guid.CreateVersion7(), SchoolId = school.Id, Name = roomName };
        var isNew = room is null && !added.ContainsKey(key);
        var tank = code.Length == 0 ? null : PlanTank(cells, code, fresh, school);
        if (cells.Why.Count == 0 && isNew)
        {
            added[key] = fresh;
        }

        return PlannedRow.Of(cells, name, [new PlannedThing(PlaceThing.Room, fresh.Id, $"{school.Name}, {fresh.Name}", isNew, changes, db =>
        {
            SchoolFields.Set(fresh, RoomFields.OfRoom, changes);
            if (isNew)
            {
                db.Classrooms.Add(fresh);
            }
        }), tank]);
    }

    private PlannedThing? PlanTank(PlaceCells cells, string code, Classroom room, School school)
    {
        var tank = tanks.GetValueOrDefault(code);
        if (!RoomSheet.IsCode(code))
        {
            cells.Unclear($"“{SheetTexts.Shortened(code)}” is no tank code. Expected: at most 12 letters, digits and dashes, such as A007.");
        }
        else if (takenElsewhere.Contains(code))
        {
            cells.Unclear($"The code {code} is taken. Codes are unique in the whole installation; give this tank another one.");
        }
        else if (tank is not null && tank.ClassroomId != room.Id)
        {
            cells.Unclear($"Tank {code} stands in another room by the register. A sheet does not move a tank.");
        }
        else if (tank?.ClosedAt is not null)
        {
            cells.Unclear($"Tank {code} is closed. Give the new tank another code.");
        }
        else if (!before.TryAdd(code, cells.Row.Number))
        {
            cells.Unclear($"Tank {code} stands in row {before[code]} already.");
        }

        var changes = cells.Compare(tank, RoomFields.OfTank);
        var fresh = tank ?? new Tank { Id = Guid.CreateVersion7(), ProgrammeId = ask.User.ProgrammeId, ClassroomId = room.Id, Code = code };
        return new PlannedThing(PlaceThing.Tank, fresh.Id, $"{code}, {school.Name}, {room.Name}", tank is null, changes, db =>
        {
            SchoolFields.Set(fresh, RoomFields.OfTank, changes);
            if (tank is null)
            {
                db.Tanks.Add(fresh);
                db.RoomCodes.Add(RoomSheet.NewCode(fresh.Id, ask.Now));
            }
        });
    }
}
