using System.Globalization;
using System.Text;
using CsCheck;
using CsvHelper;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings.Sheets;

/// <summary>Whatever is sent: a sheet that is refused as a whole, or rows of which each is accounted for by its number.</summary>
public class FuzzedSheetTests
{
    private static readonly string[] Usual =
    [
        "A001", "A002", "Z9", "2027-02-01", "2/13/2027", "13/2/2027", "8:15 AM", "52", "52,5", "5.2", "512", "-1", "111", "11 C", "y", "x", "no", "", "-", "=1+1", "#REF!", "😀", "sí",
    ];

    private static readonly Gen<string> Cell = Gen.Frequency(
        (4, Gen.Int[0, Usual.Length - 1].Select(i => Usual[i])),
        (1, Gen.String[Gen.Char["ab1,;\"\n\r\t \u00e9\uFFFD"], 0, 12]));

    private static readonly Gen<string[][]> Table = Cell.Array[1, 6].Array[0, 25];

    [Fact]
    public void Random_bytes_are_refused_or_every_row_of_them_has_its_number() =>
        Gen.Byte.Array[0, 400].Sample(bytes => CheckRows(bytes), iter: 3_000);

    [Fact]
    public void A_workbook_with_random_bytes_in_it_is_refused_or_every_row_of_it_has_its_number()
    {
        var whole = Workbooks.OfTexts([["Tank", "Date", "Water"], ["A001", "2027-02-01", "52"], ["A002", "2027-02-02", "51"]]);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[1, whole.Length]).Sample((at, with, end) =>
        {
            var broken = whole[..Math.Max(end, 4)];
            broken[Math.Min(at, broken.Length - 1)] = with;
            return CheckRows(broken);
        }, iter: 1_500);
    }

    [Fact]
    public void Text_without_quotation_marks_has_a_row_for_each_line() =>
        Gen.String[Gen.Char["a1,;\n\t "], 1, 200].Sample(text =>
        {
            var lines = text.Split('\n');
            return TextRows.Read(new StringReader(text), ',').Count() == (lines[^1].Length == 0 ? lines.Length - 1 : lines.Length);
        });

    [Fact]
    public void What_another_program_wrote_comes_back_cell_for_cell() =>
        Gen.String[Gen.Char["ab,\" \n;"], 1, 8].Array[1, 4].Array[1, 8].Sample(table =>
        {
            using var text = new StringWriter(CultureInfo.InvariantCulture);
            using (var csv = new CsvWriter(text, CultureInfo.InvariantCulture, leaveOpen: true))
            {
                foreach (var row in table)
                {
                    row.ToList().ForEach(cell => csv.WriteField(cell, shouldQuote: true));
                    csv.NextRecord();
                }
            }

            return TextRows.Read(new StringReader(text.ToString()), ',').Select(r => string.Join('|', r.Cells)).SequenceEqual(table.Select(r => string.Join('|', r)));
        });

    [Theory, BothDatabases]
    public async Task Every_row_of_a_random_table_becomes_exactly_one_thing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tanks = new TankNames([.. world.One.Tanks.Select(t => new NamedTank(t.Id, t.Code, TemperatureUnit.F, "Birch Lane School", t.Code, new TimeOnly(8, 0)))]);
        await Gen.Select(Table, Gen.Bool).SampleAsync(async (table, asWorkbook) =>
        {
            string[][] rows = [["Tank", "Date", "Time", "Water", "Dead eggs", "Notes"], .. table];
            var content = asWorkbook ? Workbooks.OfTexts(rows) : Encoding.UTF8.GetBytes(Csv(rows));
            var file = SheetFile.Open(content);
            var sheet = new SheetInHand(
                new ReadingImport { Id = Guid.NewGuid(), FileName = "x", Columns = "", SentBy = Guid.NewGuid() },
                GuessColumns.Of(file, tanks, new DateOnly(2027, 2, 3)), file, SheetHeader.Find(file.Rows(), HeaderWords.Reader), tanks, ProgrammeClock.Of("America/Denver"));

            var judged = await host.CallAsync<JudgeRows, List<JudgedRow>>(judge => judge.ForeseeAsync(sheet, CancellationToken.None).ToListAsync().AsTask());

            var totals = judged.Aggregate(new RowTotals(), (sum, row) => sum.Plus(row.Fate));
            Assert.Equal(sheet.Rows().Select(r => r.Number), judged.Select(r => r.Row.Number));
            Assert.Equal(judged.Count, totals.Rows);
            Assert.All(judged, r => Assert.Equal(r.Fate is RowFate.Accepted or RowFate.Blank, r.Why.Length == 0));
            Assert.Equal(table.Length + 1 - sheet.Columns.HeaderRow, judged.Count(r => r.Row.Number <= table.Length + 1));
        }, iter: 60, threads: 1);
    }

    private static string Csv(string[][] rows) => string.Concat(rows.Select(r => string.Join(',', r.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")) + "\n"));

    private static bool CheckRows(byte[] content)
    {
        List<SheetRow> rows;
        try
        {
            rows = [.. SheetFile.Open(content).Rows()];
        }
        catch (NoSheetException)
        {
            return true;
        }

        var columns = new SheetColumns { Meanings = [ColumnMeaning.Date, ColumnMeaning.Water], DateOrder = DateOrder.MonthFirst };
        var reader = new RowReader(columns, ["Date", "Water"], new TankNames([]), ProgrammeClock.Of("America/Denver"), Guid.NewGuid(), Guid.NewGuid(), Say.InEnglish);
        var said = rows.Select(reader.Read).ToList();
        return rows.Zip(rows.Skip(1)).All(pair => pair.First.Number < pair.Second.Number)
            && said.OfType<RowSaid.Nothing>().Count() + said.OfType<RowSaid.Unclear>().Count(u => u.Why.Count > 0) == rows.Count;
    }
}
