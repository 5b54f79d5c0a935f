using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using DocumentFormat.OpenXml.Validation;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Tests.Shell;

namespace Tankside.Portal.Tests.Releases;

/// <summary>Three files of one account: they say the same, they are the same each time, and nothing in them runs.</summary>
public class TotalsFileTests
{
    private static readonly DateTime Entered = new(2027, 5, 20, 19, 15, 30, DateTimeKind.Utc);

    private static readonly SeasonTotals Season = new("Alder Basin", "2026-27",
    [
        Tank("A001", "Reed School", new TankBalance { Received = 150, DeadOnArrival = 2, EggLosses = 8, Released = 120, Unaccounted = 20 }),
        Tank("A002", "=Mill, \"Pond\"", new TankBalance { Received = 100, TransferredIn = 10, Released = 113, Unaccounted = -3 }),
        Tank("A003", "Escuela Niño", new TankBalance { Received = 90, TransferredOut = 10, StillInTank = 80 }) with { HatchDate = null, FirstReleaseDate = null, ReleaseSite = null, Permit = null },
    ])
    {
        StartsOn = new DateOnly(2026, 9, 1),
        EndsOn = new DateOnly(2027, 6, 30),
        EnteredUntil = Entered,
        Releases = [Release("A001", "Footbridge", 120), Release("A002", "Landing", 113)],
        Permits = [new PermitTotals("P-1", "rainbow-trout", "Reed Creek", 500, new DateOnly(2027, 4, 1), new DateOnly(2027, 6, 30), 233), new PermitTotals("P-2", "chinook-salmon", "Stone Fork", 80, new DateOnly(2027, 4, 1), new DateOnly(2027, 6, 30), 0)],
        Moves = [new FishMove("A003", "A002", 10)],
    };

    private static TankTotals Tank(string code, string school, TankBalance balance) => new(
        school, "Room 1", code, "L1", "rainbow-trout", balance, new DateOnly(2027, 2, 9), new DateOnly(2027, 4, 30), "Footbridge", "P-1");

    private static ReleaseTotals Release(string tank, string site, int fish) => new(
        tank, "x", "rainbow-trout", site, "Reed Creek", "P-1", new DateOnly(2027, 4, 30), fish, false, new DateOnly(2027, 5, 10), null);

    [Fact]
    public async Task The_spreadsheets_first_sheet_holds_the_same_values_as_the_csv_and_as_what_they_are()
    {
        var csv = FilesOfTotals.Csv(await Season.WriteAsync(".csv"));
        var sheet = FilesOfTotals.Sheet(await Season.WriteAsync(".xlsx"), "Tanks");

        Assert.Equal(3, csv.Count);
        foreach (var (row, cells) in csv.Zip(sheet))
        {
            Assert.Equal(row.Keys, cells.Keys);
            Assert.All(row, c => Assert.Equal(c.Value.TrimStart('\''), cells[c.Key].Text));
        }

        Assert.Equal(
            ("text", "number", "day", "number", ""),
            (sheet[0]["school"].Type, sheet[0]["eggs_received"].Type, sheet[0]["hatch_date"].Type, sheet[0]["survival_percent"].Type, sheet[2]["hatch_date"].Type));
        Assert.Equal(("text", "=Mill, \"Pond\""), sheet[1]["school"]);
    }

    [Fact]
    public async Task The_spreadsheet_is_well_formed_with_a_sheet_a_grouping_and_a_head_that_stands_still()
    {
        var file = await Season.WriteAsync(".xlsx");

        using var book = SpreadsheetDocument.Open(new MemoryStream(file), isEditable: false);
        Assert.Empty(new OpenXmlValidator().Validate(book).Select(e => e.Description));
        Assert.Equal(
            ["Tanks", "Schools", "Lots", "Species", "Rooms together", "Sites", "Permits", "About"],
            book.WorkbookPart!.Workbook!.Descendants<Sheet>().Select(s => s.Name!.Value!));
        Assert.All(["Tanks", "Sites"], name => Assert.Equal(
            (1d, PaneStateValues.Frozen), FilesOfTotals.PartOf(book, name).Worksheet!.Descendants<Pane>().Select(p => (p.VerticalSplit!.Value, p.State!.Value)).Single()));
    }

    [Fact]
    public async Task Every_grouping_adds_up_to_the_season()
    {
        var file = await Season.WriteAsync(".xlsx");

        Assert.All(["Schools", "Lots", "Species", "Rooms together"], name =>
        {
            var rows = FilesOfTotals.Sheet(file, name);
            foreach (var (column, of) in TotalsColumns.Counts)
            {
                Assert.Equal(of(Season.Sum), rows.Sum(r => int.Parse(r[column].Text, System.Globalization.CultureInfo.InvariantCulture)));
            }
        });
        Assert.Equal(["120", "113"], FilesOfTotals.Sheet(file, "Sites").Select(r => r["released"].Text));
        Assert.Equal([("P-1", "233", "267"), ("P-2", "0", "80")], FilesOfTotals.Sheet(file, "Permits").Select(r => (r["permit"].Text, r["released"].Text, r["left"].Text)));
        Assert.Equal(["A001", "A002 + A003"], FilesOfTotals.Sheet(file, "Rooms together").Select(r => r["tanks_together"].Text));
    }

    [Theory]
    [InlineData(".csv")]
    [InlineData(".xlsx")]
    [InlineData(".pdf")]
    public async Task The_same_account_is_the_same_file_to_the_byte(string ending) =>
        Assert.Equal(await Season.WriteAsync(ending), await Season.WriteAsync(ending));

    /// <summary>A zip keeps local times and a PDF its own ids: neither the clock nor chance may be in the file.</summary>
    [Fact]
    public async Task The_files_carry_the_time_of_the_newest_entry_and_no_other()
    {
        using var zip = new System.IO.Compression.ZipArchive(new MemoryStream(await Season.WriteAsync(".xlsx")));
        Assert.All(zip.Entries, e => Assert.Equal(Entered, e.LastWriteTime.DateTime));
        using var core = new StreamReader(zip.GetEntry("docProps/core.xml")!.Open());
        Assert.Contains(">2027-05-20T19:15:30Z<", await core.ReadToEndAsync(), StringComparison.Ordinal);
        var pdf = System.Text.Encoding.Latin1.GetString(await Season.WriteAsync(".pdf"));
        Assert.Contains("/CreationDate(D:20270520191530", pdf, StringComparison.Ordinal);
        Assert.DoesNotContain("D:" + DateTime.UtcNow.Year, pdf.Replace("D:2027", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_report_names_the_account_the_sites_and_permits_how_it_was_made_and_where_to_sign()
    {
        var pdf = PrintedPdf.Read(await Season.WriteAsync(".pdf"));

        Assert.Equal("Alder Basin: fish account of season 2026-27", pdf.Title);
        Assert.All(
            [
                "340 eggs came in; 233 are released, 80 are still in the tanks, 10 died, 17 are unaccounted for.", "Egg to release: 89.6 %", "in 2 of 3 tanks supplied",
                "Egg to hatch:", "Hatch to release:", "Where every egg went", "Footbridge Reed Creek P-1 1 120", "P-2 Stone Fork 80 0 0 80",
                "By lot", "By species", "By school", "By tank", "95 % Wilson score intervals", "Signature", "page 1 of", "Escuela Niño",
            ],
            text => Assert.Contains(text, pdf.Text.Replace('\n', ' '), StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_sealed_account_carries_its_checksum_into_the_report_and_the_spreadsheet()
    {
        var @sealed = Season with { Seal = new SealMark(Entered.AddDays(9), new string('c', 64)) };

        Assert.Contains(new string('c', 64), PrintedPdf.Read(await @sealed.WriteAsync(".pdf")).Text, StringComparison.Ordinal);
        Assert.Equal(new string('c', 64), FilesOfTotals.Sheet(await @sealed.WriteAsync(".xlsx"), "About").Single(r => r["what"].Text == "sha256_of_csv")["value"].Text);
    }

    [Fact]
    public async Task An_account_without_a_tank_is_a_file_too()
    {
        var none = new SeasonTotals("P", "S", []);

        Assert.Empty(FilesOfTotals.Csv(await none.WriteAsync(".csv")));
        Assert.Empty(FilesOfTotals.Sheet(await none.WriteAsync(".xlsx"), "Tanks"));
        Assert.Contains("0 eggs came in", PrintedPdf.Read(await none.WriteAsync(".pdf")).Text, StringComparison.Ordinal);
    }

    /// <summary>Names nobody can know beforehand: long, from the right, signs that XML has no room for.</summary>
    [Fact]
    public async Task No_name_is_lost_in_any_file()
    {
        var name = string.Concat(Enumerable.Repeat("Tatahouchee Consolidated Elementary School of the Upper Valley ", 4)).Trim();
        string[] schools = [name, "בית ספר הנחל 12", "東小学校", "Bad\u0001Sign"];
        var odd = Season with { Tanks = [.. schools.Select((s, i) => Tank($"A{i}", s, new TankBalance { Received = 1, Unaccounted = 1 }))] };

        Assert.Equal(schools, FilesOfTotals.Csv(await odd.WriteAsync(".csv")).Select(r => r["school"]));
        Assert.Equal([.. schools[..3], "Bad\uFFFDSign"], FilesOfTotals.Sheet(await odd.WriteAsync(".xlsx"), "Tanks").Select(r => r["school"].Text));
        var pdf = PrintedPdf.Read(await odd.WriteAsync(".pdf")).Text.Replace('\n', ' ').Replace(" ", "", StringComparison.Ordinal);
        Assert.True(Count(pdf, "TatahoucheeConsolidated") >= 8, "all four of it stand by school and by tank; the picture may cut it");
        Assert.Contains("12לחנהרפסתיב", pdf, StringComparison.Ordinal); // As it stands from left to right: the reader begins at the right.
        Assert.Contains("⟨U+6771⟩⟨U+5C0F⟩", pdf, StringComparison.Ordinal);
    }

    private static int Count(string text, string part) => (text.Length - text.Replace(part, "", StringComparison.Ordinal).Length) / part.Length;
}
