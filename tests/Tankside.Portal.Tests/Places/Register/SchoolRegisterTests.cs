using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places.Register;
using Tankside.Science.Heat;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Places.Register;

public class SchoolRegisterTests
{
    [Theory, BothDatabases]
    public async Task A_school_its_room_and_its_tank_are_added_by_hand_and_the_tank_has_a_room_code(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var page = await coordinator.SendAsync("/schools/new", Fields(
            ("Name", " Heron  Ford "), ("Area", "north"), ("OpensAt", "07:50"), ("ClosesAt", "14:40"), ("DeliverFrom", "09:00"), ("DeliverBy", "13:30"),
            ("BellTimes", "recess 10:15 to 10:30"), ("DoorNotes", "Park by the gym; blue door"), ("Disinfectant", "chloramine"), ("WaterNotes", "old pipes"),
            ("Latitude", "44,1"), ("Longitude", "-113.2"), ("ElevationM", "1420"), ("DistanceKm", "12")), "school");
        Assert.Contains("Added: Heron Ford, open 07:50 to 14:40.", page, StringComparison.Ordinal);
        Assert.Contains("Deliveries 09:00 to 13:30.", page, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var school = await db.Schools.SingleAsync(s => s.Name == "Heron Ford");
        Assert.Equal(
            (44.1, -113.2, 1420, 12, Disinfectant.Chloramine, "old pipes", "recess 10:15 to 10:30", "Park by the gym; blue door"),
            (school.Latitude, school.Longitude, school.ElevationM, school.DistanceKm, school.Disinfectant, school.WaterNotes, school.BellTimes, school.DoorNotes));

        await coordinator.SendAsync($"/schools/{school.Id}/rooms/new", new() { ["Input.Name"] = "Room 3", ["Input.NewTeacher"] = "true" }, "room");
        var room = await db.Classrooms.SingleAsync(r => r.SchoolId == school.Id);
        Assert.True(room.NewTeacher);

        // The next code, and what most tanks of the programme are like, stand there already.
        await coordinator.SendAsync($"/schools/{school.Id}/rooms/{room.Id}/tanks/new", new() { ["Input.SetPoint"] = "51 °F", ["Input.Jacket"] = "foam" }, "tank");
        var tank = await db.Tanks.SingleAsync(t => t.ClassroomId == room.Id);
        Assert.Equal(("A003", 208, 10.56, Jacket.Foam, TemperatureUnit.F), (tank.Code, tank.Litres, tank.SetPointC, tank.Jacket, tank.UsualUnit));
        Assert.Equal(RoomCodes.Length, (await db.RoomCodes.SingleAsync(c => c.TankId == tank.Id)).Code.Length);
        Assert.Contains("Heron Ford", await coordinator.ReadAsync("/schools?search=a003"), StringComparison.Ordinal);
        Assert.DoesNotContain("Heron Ford", await coordinator.ReadAsync("/schools?area=south"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Two_on_one_school_do_not_overwrite_each_other(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var address = $"/schools/{world.One.Schools[0].Id}";

        await lead.SendAsync(address, Fields(("OpensAt", "07:45"), ("Disinfectant", "chloramine")), "school");
        var clash = await lead.RefusedAsync(address, Fields(("OpensAt", "09:00"), ("ClosesAt", "14:00"), ("Disinfectant", "chlorine"), ("Version", "0")), "school");

        Assert.Contains("opening time “07:45”; closing time “15:15”; disinfectant “chloramine”", clash, StringComparison.Ordinal);
        Assert.Contains("value=\"09:00\"", clash, StringComparison.Ordinal);
        var early = await lead.RefusedAsync(address, Fields(("OpensAt", "15:00"), ("ClosesAt", "09:00")), "school");
        Assert.Contains("The school closes after it opens.", early, StringComparison.Ordinal);
        var never = await lead.RefusedAsync(address, Fields(("DeliverFrom", "14:00"), ("DeliverBy", "10:00")), "school");
        Assert.Contains("Between 14:00 and 10:00 nobody could deliver.", never, StringComparison.Ordinal);
        var same = await lead.RefusedAsync(address, Fields(("Name", "MILL pond school"), ("Latitude", "144")), "school");
        Assert.Contains("is in the register already.", same, StringComparison.Ordinal);
        Assert.Contains("“144” is no latitude.", same, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var school = await db.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id);
        Assert.Equal((new TimeOnly(7, 45), new TimeOnly(15, 15), Disinfectant.Chloramine), (school.OpensAt, school.ClosesAt, school.Disinfectant));
    }

    [Theory, BothDatabases]
    public async Task What_has_eggs_stays_and_what_has_nothing_goes_and_comes_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var empty = new School { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, Name = "Crane Hill", Area = "north", DoorNotes = "ring twice" };
        var room = new Classroom { Id = Guid.NewGuid(), SchoolId = empty.Id, Name = "Room 9" };
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, ClassroomId = room.Id, Code = "A090", Litres = 114, SetPointC = 11 };
        var code = new RoomCode { Id = Guid.NewGuid(), TankId = tank.Id, Code = "bcdfghjkmnpq", IssuedAt = host.Now };
        var closure = new Closure { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, SchoolId = empty.Id, FirstDay = new(2027, 3, 1), LastDay = new(2027, 3, 2), Reason = "Boiler" };
        await host.SeedAsync(db => db.AddRange(empty, room, tank, code, closure));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var used = world.One;

        var stays = await coordinator.SendAsync($"/schools/{used.Schools[0].Id}/rooms/{used.Rooms[0].Id}/tanks/A001", [], "take-out");
        Assert.Contains("tank A001 was not taken out. Something hangs on tank A001:", stays, StringComparison.Ordinal);
        Assert.Contains("close it for the season", stays, StringComparison.Ordinal);
        await coordinator.SendAsync($"/schools/{used.Schools[0].Id}", [], "take-out");
        var gone = await coordinator.SendAsync($"/schools/{empty.Id}", [], "take-out");
        Assert.Contains("Taken out: Crane Hill.", gone, StringComparison.Ordinal);
        await using (var db = host.OpenDb())
        {
            Assert.Equal(2, await db.Schools.CountAsync(s => s.ProgrammeId == used.Programme.Id));
            Assert.False(await db.RoomCodes.AnyAsync(c => c.Code == code.Code) || await db.Closures.AnyAsync());
        }

        var other = await host.ClientAs(Role.ProgrammeLead, world.Two);
        var id = (await host.OpenDb().TakenOutPlaces.SingleAsync()).Id.ToString();
        Assert.DoesNotContain("Crane Hill", await other.ReadAsync("/schools"), StringComparison.Ordinal);
        Assert.Contains("Nothing was changed.", await other.SendAsync("/schools", new() { ["Back"] = id }, "put-back"), StringComparison.Ordinal);
        Assert.Contains("Back in the register: Crane Hill.", await coordinator.SendAsync("/schools", new() { ["Back"] = id }, "put-back"), StringComparison.Ordinal);
        await using var after = host.OpenDb();
        Assert.Equal("ring twice", (await after.Schools.SingleAsync(s => s.Id == empty.Id)).DoorNotes);
        Assert.Equal((tank.Id, "Room 9", 1), ((await after.RoomCodes.SingleAsync(c => c.Code == code.Code)).TankId, (await after.Classrooms.SingleAsync(r => r.Id == room.Id)).Name, await after.Closures.CountAsync()));
    }

    [Theory, BothDatabases]
    public async Task A_tank_keeps_its_set_point_to_the_hundredth_when_something_else_is_changed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var address = $"/schools/{world.One.Schools[1].Id}/rooms/{world.One.Rooms[1].Id}/tanks/A002";

        await lead.SendAsync(address, Fields(("Litres", "113.6"), ("ChillerBatch", "")), "tank");
        var clash = await lead.RefusedAsync(address, Fields(("Litres", "300"), ("Version", "0")), "tank");

        Assert.Contains("it is now litres of water “113.6”", clash, StringComparison.Ordinal);
        Assert.Contains("is no set-point", await lead.RefusedAsync(address, Fields(("SetPoint", "25 °C")), "tank"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var tank = await db.Tanks.SingleAsync(t => t.Code == "A002");
        Assert.Equal((113.6, 10.5, null), (tank.Litres, tank.SetPointC, tank.ChillerBatch));
        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync($"/schools/{world.Two.Schools[0].Id}")).StatusCode);
    }

    [Theory]
    [InlineData(null, "A001")]
    [InlineData("A011", "A013")]
    [InlineData("POND-9", "POND-10")]
    [InlineData("FRONT", "A001")]
    public void The_next_code_follows_the_newest_and_is_free(string? newest, string next) =>
        Assert.Equal(next, KeepTank.NextCode(["A011", "A012", "POND-9"], newest));
}
