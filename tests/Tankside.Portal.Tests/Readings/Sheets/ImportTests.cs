using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings.Sheets;

public class ImportTests
{
    private const string Sheet =
        "Tank,Date,Time,Water °F,Dead eggs,Moving?,Notes\n"
        + "A001,1/31/2027,8:15 AM,51.5,2,y,\n"
        + "A001,2/2/2027,8:20 AM,52,,y,fine\n"
        + "A002,2/2/2027,,5.2,1,y,\n"
        + "A002,2/2/2027,9:00 AM,512,,y,\n"
        + ",,,,,,\n"
        + "Z999,2/2/2027,9:00 AM,52,,y,=cmd|calc\n";

    [Theory, BothDatabases]
    public async Task A_sheet_is_looked_at_then_stored_and_every_row_is_accounted_for(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        Assert.Contains("None yet.", await client.ReadPageAsync("/readings/import"), StringComparison.Ordinal);

        var address = await client.UploadAsync(Sheet);
        var preview = await client.ReadPageAsync(address);

        Assert.Contains("3 of 6 rows can be stored. Nothing is stored yet.", preview, StringComparison.Ordinal);
        Assert.Contains("5.2 °F does not fit a cold tank. Was it 52 °F?", preview, StringComparison.Ordinal);
        Assert.Contains("512 is not a temperature that water in a tank can have.", preview, StringComparison.Ordinal);
        Assert.Contains("“Z999” is not a tank", preview, StringComparison.Ordinal);
        Assert.Equal(["Row 4", "Row 5", "Row 7"], RowsToLookAt(preview));
        await using (var db = host.OpenDb())
        {
            Assert.Equal(0, await db.Readings.CountAsync());
        }

        Assert.Contains("The readings are being stored: 0 of 6 rows.", await client.PressAsync(address, "store"), StringComparison.Ordinal);
        await host.StoreSheetsAsync();
        var done = await client.ReadPageAsync(address);

        Assert.Equal((2, 1, 0, 2, 1), (await host.ImportOfAsync(address)).Counts());
        Assert.Contains("3 readings of 6 rows stored.", done, StringComparison.Ordinal);
        Assert.Equal(["Row 4", "Row 5", "Row 7"], RowsToLookAt(done));
        await using var after = host.OpenDb();
        var readings = await after.Readings.OrderBy(r => r.At).ToListAsync();
        Assert.Equal(["51.5", "5.2", "52"], readings.Select(r => r.TypedWater));
        Assert.All(readings, r => Assert.Equal((ReadingSource.Sheet, (Guid?)world.One.People[Role.Coordinator].Id), (r.Source, r.EnteredBy)));
        Assert.Equal(new DateTime(2027, 2, 2, 15, 0, 0, DateTimeKind.Utc), readings[1].At); // No time was written: when the school opens.
        Assert.Contains("sheet.csv", await client.ReadPageAsync("/readings/import"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_row_that_could_be_stored_by_now_is_not_said_to_have_been()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var (address, _) = await host.ImportAsync(client, Sheet);
        await host.SeedAsync(db => db.Tanks.Add(new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            ClassroomId = world.One.Rooms[0].Id,
            Code = "Z999",
            Litres = 208,
            SetPointC = 10.5,
        }));
        host.Time.Advance(TimeSpan.FromMinutes(5));

        var page = await client.ReadPageAsync(address);

        Assert.Equal(["Row 4", "Row 5", "Row 7"], RowsToLookAt(page));
        Assert.Contains("Not stored by this import; it could be now.", page, StringComparison.Ordinal);
        Assert.Contains("7,refused,Not stored by this import", await client.GetStringAsync($"{address}/rows.csv"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_refused_rows_come_back_as_a_file_that_no_spreadsheet_runs(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var (address, _) = await host.ImportAsync(client, Sheet);

        var refused = await client.GetStringAsync($"{address}/rows.csv?only=refused");
        var all = await client.GetStringAsync($"{address}/rows.csv");

        Assert.Equal(3, refused.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Contains("7,refused,\"“Z999” is not a tank, or a school or room with a single tank, that you may enter readings for.\",Z999,2/2/2027,9:00 AM,52,,y,'=cmd|calc", refused, StringComparison.Ordinal);
        Assert.Equal(7, all.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);

        // Put right in that very file and sent again: the columns that we added are not taken for anything.
        var (_, import) = await host.ImportAsync(client, refused.Replace("Z999", "A002", StringComparison.Ordinal).Replace("512", "51.2", StringComparison.Ordinal));
        Assert.Equal((2, 0, 0, 0, 0), import.Counts());
    }

    [Theory, BothDatabases]
    public async Task The_same_sheet_again_stores_nothing_twice_not_even_rows_that_are_alike(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        const string Twins = "Tank,Date,Water,Dead eggs\nA001,2027-02-01,52,1\nA001,2027-02-01,52,1\nA001,2027-02-02,52,0\n";

        Assert.Equal((3, 0, 0, 0, 0), (await host.ImportAsync(client, Twins)).Import.Counts());
        Assert.Equal((0, 0, 3, 0, 0), (await Previewed(Twins)).Counts());
        Assert.Equal((1, 0, 3, 0, 0), (await host.ImportAsync(client, Twins + "A001,2027-02-02,52.5,0\n")).Import.Counts());

        // All of it is there: the page offers nothing to store.
        async Task<RowTotalsSeen> Previewed(string text) => new(await client.ReadPageAsync(await client.UploadAsync(text)));
    }

    [Theory, BothDatabases]
    public async Task An_import_is_taken_back_whole_with_its_ledger_lines_and_can_be_brought_in_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);
        var (address, _) = await host.ImportAsync(client, Sheet);
        await host.JudgeAsync();
        Assert.Equal(2, await EggLossesAsync());

        var late = await client.OpenFormAsync(address, new Dictionary<string, string>(), "undo");
        var undone = await client.PressAsync(address, "undo");
        await host.JudgeAsync();

        Assert.Contains("Taken back: 3 readings count no more.", undone, StringComparison.Ordinal);
        Assert.Equal(0, await EggLossesAsync());
        await using (var db = host.OpenDb())
        {
            Assert.All(await db.Readings.ToListAsync(), r => Assert.Equal(ReadingState.Withdrawn, r.State));
            Assert.Equal(0, await db.TankDays.CountAsync());
        }

        await late(); // Somebody else had the page open too.
        Assert.Contains("This import was taken back on", await client.ReadPageAsync(address), StringComparison.Ordinal);
        Assert.Equal(0, await EggLossesAsync());

        var (again, import) = await host.ImportAsync(client, Sheet);
        Assert.Equal((2, 1, 0, 2, 1), import.Counts());
        Assert.Equal(2, await EggLossesAsync());

        await client.PressAsync(again, "undo");
        Assert.Equal((2, 1, 0, 2, 1), (await host.ImportAsync(client, Sheet)).Import.Counts());

        async Task<int> EggLossesAsync()
        {
            await using var db = host.OpenDb();
            return await db.Ledger.Where(e => e.Kind == LedgerKind.EggLoss).SumAsync(e => e.Count);
        }
    }

    [Theory, BothDatabases]
    public async Task What_a_person_corrected_since_stays_when_the_import_is_taken_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var (address, _) = await host.ImportAsync(client, Sheet);
        Guid corrected;
        await using (var db = host.OpenDb())
        {
            corrected = (await db.Readings.SingleAsync(r => r.Seen.DeadEggs == 2)).SenderId;
        }

        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], new(2027, 1, 31, 15, 15, 0, DateTimeKind.Utc), new Observation { DeadEggs = 5 }, ReadingSource.Person) with { Corrects = corrected });

        Assert.Contains("One of them was corrected or answered by a person since", await client.PressAsync(address, "undo"), StringComparison.Ordinal);
        await using var after = host.OpenDb();
        Assert.Equal(5, (await after.Readings.SingleAsync(r => r.State == ReadingState.Accepted && r.CorrectedBy == null)).Seen.DeadEggs);
        Assert.Equal(5, await after.Ledger.Where(e => e.Kind == LedgerKind.EggLoss).SumAsync(e => e.Count));
    }

    [Theory, BothDatabases]
    public async Task Questions_about_columns_are_answered_before_anything_can_be_stored(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var address = await client.UploadAsync("Date,Temp,Dead,Student\n1/2/2027,52,1,Robin\n2/2/2027,51,0,Robin\n");
        var page = await client.ReadPageAsync(address);
        Assert.Contains("This sheet needs a word from you first.", page, StringComparison.Ordinal);
        Assert.Contains("Which tank are the readings of?", page, StringComparison.Ordinal);
        Assert.Contains("Do the dates begin with the month or with the day?", page, StringComparison.Ordinal);
        Assert.Contains("Are the dead eggs, alevins or fry?", page, StringComparison.Ordinal);
        Assert.DoesNotContain("these 2 readings", page, StringComparison.Ordinal);

        var ready = await client.PressAsync(address, "columns", ("tank", "A002"), ("order", "DayFirst"), ("meaning-2", "DeadAlevins"), ("hour", "09:30"));
        Assert.Contains("Store these 2 readings", ready, StringComparison.Ordinal);
        await client.PressAsync(address, "store");
        await host.StoreSheetsAsync();

        await using var db = host.OpenDb();
        var readings = await db.Readings.OrderBy(r => r.At).ToListAsync();
        Assert.Equal([(1, 2), (2, 2)], readings.Select(r => (r.At.Day, r.At.Month)));
        Assert.All(readings, r => Assert.Equal((world.One.Tanks[1].Id, new TimeOnly(16, 30), (string?)null), (r.TankId, TimeOnly.FromDateTime(r.At), r.Seen.Note)));
        Assert.Equal([1, 0], readings.Select(r => r.Seen.DeadAlevins!.Value));
    }

    [Theory, BothDatabases]
    public async Task A_teacher_brings_in_readings_of_the_own_school_alone(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var kit = await host.ClientAs(Role.KitHand, world.One);
        var stranger = await host.ClientAs(Role.ProgrammeLead, world.Two);

        var (address, import) = await host.ImportAsync(teacher, "Tank,Date,Water\nA001,2027-02-01,52\nA002,2027-02-01,52\nB001,2027-02-01,52\n");

        Assert.Equal((1, 0, 0, 2, 0), import.Counts());
        Assert.Contains("not-yours", (await kit.GetAsync(address)).Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await stranger.GetAsync(address)).StatusCode);
        Assert.Contains("None yet.", await stranger.ReadPageAsync("/readings/import"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_file_that_is_no_sheet_is_refused_and_nothing_is_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        Assert.Contains("not a sheet that can be read", await SentAsync([0, 1, 2, 3], "photo.csv"), StringComparison.Ordinal);
        Assert.Contains("The file is empty.", await SentAsync([], "empty.csv"), StringComparison.Ordinal);
        Assert.Contains("larger than 20 MB", await SentAsync(new byte[SheetLimits.MostBytes + 1], "huge.csv"), StringComparison.Ordinal);
        Assert.Contains("more than 200,000 rows", await SentAsync(Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat("A001,52\n", SheetLimits.MostRows + 1))), "long.csv"), StringComparison.Ordinal);
        Assert.Contains("more than 200,000 rows", await SentAsync(Encoding.UTF8.GetBytes(new string('\n', SheetLimits.MostLines + 1)), "empty.csv"), StringComparison.Ordinal);
        Assert.Contains("a column for each tank", await SentAsync(Encoding.UTF8.GetBytes("Date,A001,A002\n2027-02-01,52,51\n"), "wide.csv"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal((0, 0), (await db.ReadingImports.CountAsync(), await db.ImportedSheets.CountAsync()));

        async Task<string> SentAsync(byte[] content, string name) =>
            WebUtility.HtmlDecode(await (await client.SendFileAsync(content, name)).Content.ReadAsStringAsync());
    }

    [Theory, BothDatabases]
    public async Task A_sheet_that_is_thrown_away_is_gone(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        Assert.Contains("is thrown away", await client.PressAsync(await client.UploadAsync(Sheet), "discard"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal((0, 0), (await db.ReadingImports.CountAsync(), await db.ImportedSheets.CountAsync()));
    }

    private static IEnumerable<string> RowsToLookAt(string page) =>
        System.Text.RegularExpressions.Regex.Matches(page.Split("aria-label=\"Rows to look at\"")[1].Split("</table>")[0], "Row \\d+(?=</th>)").Select(m => m.Value);

    /// <summary>The totals as the page shows them.</summary>
    private sealed record RowTotalsSeen(string Page)
    {
        public (int Accepted, int Asked, int Duplicates, int Refused, int Blank) Counts() =>
            (Of("Accepted"), Of("Asked"), Of("Already there"), Of("Refused"), Of("Blank"));

        private int Of(string name) => int.Parse(
            System.Text.RegularExpressions.Regex.Match(Page, $"row\">{name} .*?class=\"num\">([\\d,]+)<", System.Text.RegularExpressions.RegexOptions.Singleline).Groups[1].Value.Replace(",", "", StringComparison.Ordinal),
            System.Globalization.CultureInfo.InvariantCulture);
    }
}
