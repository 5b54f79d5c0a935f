using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places.Sheets;

/// <summary>Sheets of schools, rooms and closures, from the file to what is stored.</summary>
public class PlaceImportTests
{
    private const string Schools =
        "School,Area,Opens,Closes,Phone\r\nHéron Ford Elementary,west,8:30,15:00,555-0100\r\nbirch lane  school,north,7:45,,555-0101\r\nMill Pond School,south,,,\r\nTern Flat,east,16:00,9:00,\r\n=1+1 School,east,,,\r\n";

    [Theory, BothDatabases]
    public async Task Schools_are_shown_as_new_changed_unchanged_and_refused_and_stored_only_when_it_is_said(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var address = await client.SendSheetAsync(Schools);
        var page = await client.ReadAsync(address);
        Assert.Equal((int[])[2, 1, 1, 1], PlaceSteps.Totals(page));
        Assert.Contains("opening time from “08:00” to “07:45”", page, StringComparison.Ordinal);
        Assert.Contains("It would open at 16:00 and close at 09:00", page, StringComparison.Ordinal);
        Assert.DoesNotContain("555-01", page, StringComparison.Ordinal);
        Assert.Equal(2, await SchoolsAsync(host, world));

        Assert.Contains("Stored: 2 added, 1 changed. 1 refused", await client.PressAsync(address, "store"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var names = await db.Schools.Where(s => s.ProgrammeId == world.One.Programme.Id).Select(s => s.Name).ToListAsync();
        Assert.Equal(["=1+1 School", "Birch Lane School", "Héron Ford Elementary", "Mill Pond School"], names.Order(StringComparer.Ordinal));
        Assert.Equal(new TimeOnly(7, 45), (await db.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id)).OpensAt);
        Assert.Empty(await db.PlaceImportSheets.ToListAsync());

        Assert.Equal((int[])[0, 0, 4, 1], PlaceSteps.Totals(await client.ReadAsync(await client.SendSheetAsync(Schools))));
    }

    [Theory, BothDatabases]
    public async Task Rooms_come_with_their_tanks_and_a_label_for_each(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        const string Sheet = """
            School;Room;Tank code;Litres;Set point;New teacher
            Birch Lane School;Room 1;A001;208;52 °F;yes
            Birch Lane School;Room 9;A900;150,5;10.5;no
            Birch Lane School;Room 9;A901;150;10.5;
            Mill Pond School;Library;;;;
            Mill Pond School;Room 2;B001;208;10.5;
            Mill Pond School;Room 2;A001;208;10.5;
            Elsewhere;Room 1;;;;
            Mill Pond School;Room 7;A902;;;
            """;

        var address = await client.SendSheetAsync(Sheet);
        var page = await client.ReadAsync(address);
        Assert.Equal((int[])[3, 1, 0, 4], PlaceSteps.Totals(page));
        Assert.Contains("set-point in °C from “10.5” to “11.11”", page, StringComparison.Ordinal);
        Assert.Contains("The code B001 is taken", page, StringComparison.Ordinal);
        Assert.Contains("Tank A001 stands in another room", page, StringComparison.Ordinal);
        Assert.Contains("“Elsewhere” is no school of your programme", page, StringComparison.Ordinal);
        Assert.Contains("The row names no litres of water", page, StringComparison.Ordinal);

        await client.PressAsync(address, "store");
        await using var db = host.OpenDb();
        var tank = await db.Tanks.SingleAsync(t => t.Code == "A900");
        Assert.Equal(150.5, tank.Litres);
        Assert.Equal(tank.ClassroomId, (await db.Tanks.SingleAsync(t => t.Code == "A901")).ClassroomId);
        Assert.Equal(1, await db.RoomCodes.CountAsync(c => c.TankId == tank.Id));
        Assert.True((await db.Classrooms.SingleAsync(r => r.Id == world.One.Rooms[0].Id)).NewTeacher);
        Assert.True(await db.Tanks.AnyAsync(t => t.Code == "B001" && t.ProgrammeId == world.Two.Programme.Id));
    }

    [Theory, BothDatabases]
    public async Task Closures_whose_days_can_be_read_both_ways_are_asked_first(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        var address = await client.SendSheetAsync("School,First day,Last day,Why\r\nall,3/4/2027,3/5/2027,Spring break\r\nBirch Lane School,5/4/2027,,Staff day\r\n");
        Assert.Contains("Do the dates begin with the month or with the day?", await client.ReadAsync(address), StringComparison.Ordinal);
        Assert.Equal((int[])[2, 0, 0, 0], PlaceSteps.Totals(await client.PressAsync(address, "columns", ("order", "DayFirst"))));
        await client.PressAsync(address, "store");

        await using var db = host.OpenDb();
        var closures = await db.Closures.Where(c => c.ProgrammeId == world.One.Programme.Id).OrderBy(c => c.FirstDay).ToListAsync();
        Assert.Equal([(new DateOnly(2027, 4, 3), null), (new DateOnly(2027, 4, 5), world.One.Schools[0].Id)], closures.Select(c => (c.FirstDay, c.SchoolId)));
        Assert.Equal((int[])[0, 1, 1, 1], PlaceSteps.Totals(await client.ReadAsync(await client.SendSheetAsync(
            "First day,Last day,Reason,Where\n2027-04-03,2027-05-03,Long break,all\n2027-04-05,2027-04-05,Staff day,Birch Lane School\n2027-04-09,2027-04-01,Backwards,\n"))));
    }

    [Theory, BothDatabases]
    public async Task A_preview_that_is_out_of_date_stores_nothing_and_says_what_changed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var address = await client.SendSheetAsync("School,Area\nBirch Lane School,west\nTern Flat,east\n");
        var store = await client.OpenFormAsync(address, new Dictionary<string, string>(), "store");

        await using (var db = host.OpenDb())
        {
            (await db.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id)).Area = "centre";
            await db.SaveChangesAsync();
        }

        var told = await client.ReadAnswerAsync(await store());
        Assert.Contains("Nothing was stored, because something has changed since you looked. Now row 2 (Birch Lane School) changes: area from “centre” to “west”", told, StringComparison.Ordinal);
        Assert.Equal(2, await SchoolsAsync(host, world));
        Assert.Contains("Stored: 1 added, 1 changed", await client.PressAsync(address, "store"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Two_people_who_confirm_the_same_preview_at_once_store_it_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        HttpClient[] clients = [await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.ProgrammeLead, world.One)];
        var address = await clients[0].SendSheetAsync("First day,Why\n2027-03-01,Founders’ day\n");
        var forms = new List<Func<Task<HttpResponseMessage>>>();
        foreach (var client in clients)
        {
            forms.Add(await client.OpenFormAsync(address, new Dictionary<string, string>(), "store"));
        }

        var answers = await Task.WhenAll(forms.Select(send => send()));
        var told = new[] { await clients[0].ReadAnswerAsync(answers[0]), await clients[1].ReadAnswerAsync(answers[1]) };
        Assert.Single(told, t => t.Contains("Stored: 1 added", StringComparison.Ordinal));
        Assert.Single(told, t => t.Contains("This sheet is stored already, once.", StringComparison.Ordinal));
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.Closures.CountAsync());
    }

    [Theory]
    [InlineData("School,Room,Student names\nBirch Lane School,Room 1,Ada\n", "Student names")]
    [InlineData("Pupil,Grade,Age\nAda,4,9\n", "Pupil")]
    [InlineData("School list\n\nSchool,Area,Grade\nBirch Lane School,north,4\n", "Grade")]
    [InlineData("Nombre,Correo,Rol,Edad\nAda,ada@example.test,maestra,9\n", "Edad")]
    public async Task A_sheet_with_a_column_of_childrens_data_is_not_taken_and_stored_nowhere(string sheet, string column)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var portal = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        var page = await client.RefusedSheetAsync(sheet);
        Assert.Contains($"“{column}” looks like children’s names, ages or grades. Children’s data are never collected here.", page, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.PlaceImports.ToListAsync());
        Assert.Empty(await db.PlaceImportSheets.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_preview_of_two_thousand_rows_asks_no_more_of_the_database_than_one_of_two(DatabaseKind kind)
    {
        var asked = new CountedCommands();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var coordinator = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);
        var counts = new List<int>();
        foreach (var rows in new[] { 2, 2000 })
        {
            var sheet = "School,Room,Tank,Litres,Set point\n" + string.Concat(Enumerable.Range(0, rows).Select(i =>
                string.Create(CultureInfo.InvariantCulture, $"Birch Lane School,Wing {i},Z{i:0000},208,10.5\n")));
            var address = await client.SendSheetAsync(sheet);
            asked.Begin();
            var shown = await host.CallAsync<ShownPlaces, ShownPlaceImport?>(s => s.LoadAsync(coordinator, Guid.Parse(address.Split('/')[^1]), CancellationToken.None));
            counts.Add(asked.End());
            Assert.Equal(rows, shown!.Plan!.Count(PlaceFate.Added));
            Assert.Equal((int[])[rows, 0, 0, 0], PlaceSteps.Totals(await client.ReadAsync(address)));
        }

        Assert.Equal(counts[0], counts[1]);
    }

    [Theory, BothDatabases]
    public async Task The_example_sheets_can_be_brought_in(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);
        foreach (var holds in new[] { PlaceSheet.Schools, PlaceSheet.Rooms, PlaceSheet.People, PlaceSheet.Kit, PlaceSheet.Closures })
        {
            var address = await client.SendSheetAsync(await client.GetStringAsync($"/places/import/examples/{holds.ToString().ToLowerInvariant()}.csv"));
            Assert.Equal(holds, (await host.PlaceImportAsync(address)).Holds);
            Assert.Contains("Stored: 1 added", await client.PressAsync(address, "store"), StringComparison.Ordinal);
        }
    }

    private static async Task<int> SchoolsAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        return await db.Schools.CountAsync(s => s.ProgrammeId == world.One.Programme.Id);
    }
}
