using System.Globalization;
using System.Net;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

public class TotalsTests
{
    private const string Header =
        "programme,season,school,classroom,tank,lot,species,eggs_received,dead_on_arrival,egg_losses,alevin_losses,fry_losses,put_down,sampled,transferred_in,transferred_out,released,still_in_tank,unaccounted,hatch_date,first_release_date,release_site,permit,survival_percent,survival_low,survival_high";

    [Theory, BothDatabases]
    public async Task The_file_is_read_back_as_the_contract_says_and_every_row_balances(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => db.Schools.Single(s => s.Id == one.Schools[1].Id).Name = "=Mill, \"Pond\"");
        var client = await host.ClientAs(Role.Coordinator, one);
        await client.SendAsync("/ledger/A001", Line(LedgerKind.EggLoss, "5"), "line");
        await client.SendAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "20")), "move");
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "104", ("EmptiesTank", "true")), "release");

        var answer = await client.GetAsync("/totals/2026-27.csv");
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        var text = Encoding.UTF8.GetString(bytes[3..]);

        Assert.Equal("text/csv; charset=utf-8; header=present", answer.Content.Headers.ContentType!.ToString());
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        Assert.Equal([0xEF, 0xBB, 0xBF], bytes[..3]);
        Assert.Equal(Header, text[..text.IndexOf("\r\n", StringComparison.Ordinal)]);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', text.Replace("\r\n", "", StringComparison.Ordinal));
        var rows = Read(text);
        Assert.Equal(["A001", "A002"], rows.Select(r => r["tank"]));
        Assert.All(rows, Balances);
        var first = rows[0];
        Assert.Equal(("150", "2", "5", "20", "104", "0", "19"), (first["eggs_received"], first["dead_on_arrival"], first["egg_losses"], first["transferred_out"], first["released"], first["still_in_tank"], first["unaccounted"]));
        Assert.Equal(("2027-02-03", "Footbridge", "P-1", "80.00"), (first["first_release_date"], first["release_site"], first["permit"], first["survival_percent"]));
        Assert.Equal(("72.31", "85.97"), (first["survival_low"], first["survival_high"]));
        Assert.Equal(("20", "168", "", "", ""), (rows[1]["transferred_in"], rows[1]["still_in_tank"], rows[1]["survival_percent"], rows[1]["survival_low"], rows[1]["survival_high"]));
        Assert.Equal("'=Mill, \"Pond\"", rows[1]["school"]);
    }

    [Theory, BothDatabases]
    public async Task Survival_and_the_counts_of_the_page_open_to_what_they_were_reckoned_from(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        await client.SendAsync("/ledger/A001", Line(LedgerKind.EggLoss, "5"), "line");
        await client.SendAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "20")), "move");
        await client.SendAsync("/releases", Release(world.One.Tanks[0], world.One.Site, world.One.Permit, "104", ("EmptiesTank", "true")), "release");

        var page = await client.WordsAsync("/totals");

        // 104 of 150 - 20; Wilson's ends as the file gives them too.
        Assert.Contains("Finished tanks 1 of 2 that were supplied Egg to release 104 of 130 = 80.0 % (72.31 to 85.97) Egg to hatch 123 of 128 = 96.1 %", page, StringComparison.Ordinal);
        Assert.Contains("Newcombe 1998, Statistics in Medicine 17:857-872, method 3", page, StringComparison.Ordinal);
        Assert.Contains("Came in 300 Dead on arrival 4 Lost as eggs, alevins, fry 5, 0, 0", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("+1")]
    [InlineData("-1")]
    [InlineData("@SUM(A1)")]
    [InlineData("\tx")]
    [InlineData("\rx")]
    public void A_text_that_a_spreadsheet_would_run_is_written_behind_an_apostrophe(string text)
    {
        var totals = new SeasonTotals("P", "S", [new TankTotals(text, text, "A1", text, "rainbow-trout", new TankBalance(), null, null, text, text)]);

        var row = Assert.Single(Read(Encoding.UTF8.GetString(TotalsCsv.Write(totals)[3..])));

        Assert.All(["school", "classroom", "lot", "release_site", "permit"], column => Assert.Equal("'" + text, row[column]));
        Assert.Equal("0", row["unaccounted"]);
    }

    [Theory]
    [InlineData("da-DK")]
    [InlineData("es-MX")]
    [InlineData("fa-IR")]
    public void Numbers_and_days_are_the_same_in_every_country(string culture)
    {
        var totals = new SeasonTotals("P", "S",
        [
            new TankTotals("School", "Room", "A1", "L", "brown-trout", new TankBalance { Received = 1500, Released = 1600, Unaccounted = -100 },
                new DateOnly(2027, 2, 9), new DateOnly(2027, 4, 30), null, null),
        ]);
        var here = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            var row = Assert.Single(Read(Encoding.UTF8.GetString(TotalsCsv.Write(totals)[3..])));
            Assert.Equal(("1500", "1600", "-100", "2027-02-09", "2027-04-30"), (row["eggs_received"], row["released"], row["unaccounted"], row["hatch_date"], row["first_release_date"]));
            Assert.Equal(("106.67", "", ""), (row["survival_percent"], row["survival_low"], row["survival_high"]));
        }
        finally
        {
            CultureInfo.CurrentCulture = here;
        }
    }

    [Theory]
    [InlineData(null)]
    [InlineData("*/*")]
    [InlineData("text/*")]
    [InlineData("text/csv")]
    [InlineData("application/json, text/csv;q=0.1")]
    [InlineData("application/pdf;q=0.3, text/csv;q=0.8")]
    public async Task A_program_with_a_coordinators_key_gets_the_file(string? accept)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await AskAsync(host, world.One.CoordinatorKey, "2026-27", accept);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("text/csv; charset=utf-8; header=present", answer.Content.Headers.ContentType!.ToString());
        Assert.Equal(["A001", "A002"], Read((await answer.Content.ReadAsStringAsync()).TrimStart('\ufeff')).Select(r => r["tank"]));
    }

    [Theory]
    [InlineData("application/json")]
    [InlineData("text/csv;q=0")]
    public async Task A_kind_of_file_that_there_is_not_is_told_what_there_is(string accept)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await AskAsync(host, world.One.CoordinatorKey, "2026-27", accept);

        Assert.Equal(HttpStatusCode.NotAcceptable, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        Assert.Contains("text/csv", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("application/pdf", "application/pdf", "%PDF")]
    [InlineData("application/pdf;q=0.9, text/csv;q=0.1", "application/pdf", "%PDF")]
    [InlineData("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "PK")]
    [InlineData("text/csv;q=0, */*", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "PK")]
    public async Task Another_kind_of_file_is_given_to_whoever_prefers_it(string accept, string type, string begins)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await AskAsync(host, world.One.CoordinatorKey, "2026-27", accept);

        Assert.Equal((HttpStatusCode.OK, type), (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
        Assert.StartsWith(begins, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_season_that_is_not_there_and_a_key_that_may_not_are_told(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var unknown = await AskAsync(host, world.One.CoordinatorKey, "1999-00", null);
        Assert.Equal((HttpStatusCode.NotFound, "application/problem+json"), (unknown.StatusCode, unknown.Content.Headers.ContentType!.MediaType));
        Assert.Equal(HttpStatusCode.Forbidden, (await AskAsync(host, world.One.LoggerKey, "2026-27", null)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await AskAsync(host, "nonsense", "2026-27", null)).StatusCode);
        var other = await AskAsync(host, world.Two.CoordinatorKey, "2026-27", null);
        Assert.DoesNotContain("A001", await other.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_agency_reads_totals_and_nothing_else(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var agency = await host.ClientAs(Role.AgencyContact, world.One);

        var page = await agency.ReadAsync("/totals");
        Assert.Contains("0 fish are released; 0 of 2 tanks have finished.", page, StringComparison.Ordinal);
        Assert.All(Header.Split(','), column => Assert.Contains($">{column}</th>", page, StringComparison.Ordinal));
        Assert.DoesNotContain("Coordinator A", page, StringComparison.Ordinal);
        Assert.DoesNotContain("@example.test", page, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await agency.GetAsync("/totals/2026-27.csv")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await agency.GetAsync("/totals/1999-00.csv")).StatusCode);
        foreach (var address in new[] { "/ledger", "/ledger/A001", "/releases", "/releases/sites", "/releases/permits", "/season", "/season/closures" })
        {
            var answer = await agency.GetAsync(address);
            Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
            Assert.Contains("/not-yours", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
        }
    }

    [Theory, BothDatabases]
    public async Task A_teacher_does_not_read_the_totals_of_all(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        Assert.Equal(HttpStatusCode.Redirect, (await teacher.GetAsync("/totals")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await teacher.GetAsync("/totals/2026-27.csv")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_tank_that_only_got_moved_fish_has_their_lot(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db =>
        {
            db.RemoveRange(db.Receipts.Where(r => r.TankId == one.Tanks[1].Id));
            db.RemoveRange(db.Ledger.Where(e => e.TankId == one.Tanks[1].Id));
        });
        var client = await host.ClientAs(Role.Coordinator, one);
        await client.SendAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "20"), ("CountedBy", nameof(CountMethod.Photo))), "move");
        await client.SendAsync("/releases", Release(one.Tanks[1], one.Site, one.Permit, "18", ("EmptiesTank", "true")), "release");

        var row = Read((await client.GetStringAsync("/totals/2026-27.csv")).TrimStart('\ufeff'))[1];

        Assert.Equal(("L1", "rainbow-trout", "20", "18", "2", "90.00"), (row["lot"], row["species"], row["transferred_in"], row["released"], row["unaccounted"], row["survival_percent"]));
    }

    private static async Task<HttpResponseMessage> AskAsync(PortalHost host, string key, string season, string? accept)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, $"/api/v1/seasons/{season}/totals");
        if (accept is not null)
        {
            request.Headers.TryAddWithoutValidation("Accept", accept);
        }

        return await host.ClientWithKey(key).SendAsync(request);
    }

    private static List<Dictionary<string, string>> Read(string text)
    {
        using var csv = new CsvReader(new StringReader(text), new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" });
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
        {
            rows.Add(csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name)!));
        }

        return rows;
    }

    private static void Balances(Dictionary<string, string> row)
    {
        int N(string column) => int.Parse(row[column], CultureInfo.InvariantCulture);
        Assert.Equal(
            N("eggs_received") + N("transferred_in"),
            N("dead_on_arrival") + N("egg_losses") + N("alevin_losses") + N("fry_losses") + N("put_down") + N("sampled") + N("transferred_out")
                + N("released") + N("still_in_tank") + N("unaccounted"));
    }
}
