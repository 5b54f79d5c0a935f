using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Places.Sheets;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Sheets of readings and of places, as text and as workbooks: any file is refused, or each of its rows is accounted for.</summary>
public static class Sheets
{
    private static readonly string[] Headings =
    [
        "Tank", "Date", "Time", "Water", "Water temp °F", "Room temp", "Dead eggs", "Dead", "alevins", "Notes", "Date Time, GMT-07:00", "Date (GMT+٠٧:٠٠)", "pH", "Hatched", "School", "Classroom", "name", "email", "role", "first day",
        "last day", "why", "DO % sat", "Elevation", "Student", "phone", "Enjambre", "",
    ];

    private static readonly string[] Cells =
    [
        "A001", "A002", "Z9", "2027-02-01", "2/13/2027", "13/2/2027", "3/4/2027", "Mon 3 Feb 2027", "febrero 3, 2027", "36526", "46054.34375", "8:15 AM", "8h15", "0.34", "52", "52,5", "5.2", "11 C", "y", "x", "no", "", "-",
        "=1+1", "#REF!", "sí", "half", "100%", "all", "teacher", "wren.alder@heronford.example", "Heron Ford Elementary", "a\nb", "say \"so\"", "1,200", "٣/٤/٢٠٢٧",
    ];

    private static readonly TankNames Tanks = new([.. new[] { "A001", "A002" }.Select(code => new NamedTank(Guid.Empty, code, TemperatureUnit.F, "Birch Lane School", $"Room {code}", new TimeOnly(8, 0)))]);

    /// <summary>Of the people's sheet only the columns are asked for: what its rows do needs the portal, and is tried at its door.</summary>
    private static readonly IPlaceSheet[] Kinds = [new SchoolSheet(), new RoomSheet(), new PeopleSheet(null!, null!), new ClosureSheet(), new Portal.Kit.KitSheet()];

    // A file may be nothing but rows of one sign, each read by six kinds of sheets.
    private const int MostEach = 3_500;

    // Forty rows of sixty cells are looked through for headings of six kinds of sheets, whatever the file's size.
    private const long MostOnce = 64 << 20;

    public static Target Csv { get; } = new("csv", MakeText, Read) { Words = [.. Headings, .. Cells, "\n", ",", ";", "\t"], MostBytesEach = MostEach, MostBytesOnce = MostOnce, Slice = 60 };

    public static Target Workbook { get; } = new("xlsx", MakeWorkbook, Read)
    {
        Words = [.. Cells, "<c>", "<c t=\"s\"><v>0</v></c>", "<row r=\"1048576\">", "<row>", "</row>", "<v>1e308</v>", "<f>1+1</f>", "<rPh sb=\"0\" eb=\"1\"><t>x</t></rPh>", "<si/>", "<is><t>x</t></is>", "r=\"XFD1\"", "s=\"1\"", "<sheet name=\"s\" r:id=\"r1\"/>"],
        // What is no workbook is read as text, with the bounds of that.
        MostBytesEach = MostEach,
        MostBytesOnce = MostOnce,
        Slice = 80,
    };

    /// <summary>What a workbook says is what was put into it, however it was written down.</summary>
    public static Target Model { get; } = new("xlsx-written", dice => BitConverter.GetBytes(dice.Below(int.MaxValue)), ReadModel) { MostBytesOnce = 64 << 20 };

    private static string[][] Table(Dice dice) =>
        [.. Enumerable.Range(0, dice.Below(12)).Select(row => Enumerable.Range(0, 1 + dice.Below(7)).Select(_ => dice.OneIn(20) ? dice.Of(Mutations.Odd) : row == 0 ? dice.Of(Headings) : dice.Of(Cells)).ToArray())];

    private static byte[] MakeText(Dice dice)
    {
        var separator = dice.Of([",", ",", ";", "\t", "|"]);
        var (end, quote) = (dice.Of(["\n", "\r\n", "\r"]), dice.OneIn(2));
        var text = string.Concat(Table(dice).Select(r => string.Join(separator, r.Select(c => quote || c.AsSpan().IndexOfAny(",;\"\n") >= 0 ? $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : c)) + end));
        Encoding encoding = dice.Below(8) switch { 0 => Encoding.Unicode, 1 => Encoding.BigEndianUnicode, 2 => Encoding.Latin1, _ => Encoding.UTF8 };
        return [.. dice.OneIn(3) || encoding is UnicodeEncoding ? encoding.GetPreamble() : [], .. encoding.GetBytes(text)];
    }

    private static byte[] MakeWorkbook(Dice dice) => Workbooks.Of(Table(dice), dice);

    private static string ReadModel(byte[] seed)
    {
        var dice = new Dice(new CsCheck.PCG(1, BitConverter.ToUInt32([.. seed.Take(4), 0, 0, 0, 0], 0)));
        string[][] table = [.. Table(dice).Select(r => r.Select(c => Workbooks.IsXml(c) ? c : "?").ToArray())];
        var rows = SheetFile.Open(Workbooks.Of(table, dice)).Rows().ToList();
        Held.That(rows.Count == table.Length, $"{table.Length} rows were written, {rows.Count} read.");
        foreach (var (row, cells) in rows.Zip(table))
        {
            Held.That(
                row.Trouble is not null || cells.Index().All(c => row.Cells.ElementAtOrDefault(c.Index) is var read && Plain(read ?? "") == Plain(c.Item)),
                $"Written was {string.Join('|', cells)}, read {string.Join('|', row.Cells)}.");
        }

        return $"{rows.Count} rows";
    }

    private static string Read(byte[] content)
    {
        try
        {
            var file = SheetFile.Open(content);
            if (file.Rows().Count(r => !r.IsBlank) > SheetLimits.MostRows)
            {
                return "too many rows";
            }

            return $"{file.HowRead} {ReadReadings(file)} {ReadPlaces(file)}";
        }
        catch (NoSheetException e)
        {
            Held.Said([e.Message]);
            return e.Message;
        }
    }

    private static string ReadReadings(SheetFile file)
    {
        var columns = GuessColumns.Of(file, Tanks, new DateOnly(2027, 2, 3));
        Held.That(SheetColumns.From(columns.ToJson()).ToJson() == columns.ToJson(), "The columns come back otherwise than they were kept.");
        var titles = SheetHeader.Find(file.Rows(), HeaderWords.Reader).Titles;
        var reader = new RowReader(columns, titles, Tanks, ProgrammeClock.Of("America/Denver"), Guid.Empty, Guid.Empty, Say.InEnglish);
        var (number, said) = (0, new SortedSet<string>(StringComparer.Ordinal));
        foreach (var row in file.Rows())
        {
            Held.That(row.Number > number, "The rows do not count upwards.");
            Held.That(row.Trouble is not null || row.Cells.All(c => c.Length <= SheetLimits.LongestCell), "A cell is longer than it may be.");
            number = row.Number;
            switch (reader.Read(row))
            {
                case RowSaid.Unclear unclear:
                    Held.That(unclear.Why.Count > 0, "A row is unclear without a word.");
                    Held.Said(unclear.Why);
                    said.UnionWith(unclear.Why.Take(3));
                    break;
                case RowSaid.Reading reading:
                    Held.That(reading.Incoming.At.Kind == DateTimeKind.Utc, "A time is not UTC.");
                    ReadingsJson.CheckTyped(reading.Incoming.Water, reading.Incoming.Seen);
                    said.Add("taken");
                    break;
            }
        }

        CheckWritten(file.Rows());
        return $"{string.Join(',', columns.Meanings.Distinct().Order())} {columns.DateOrder} {columns.WaterUnit} {string.Join(' ', said.Take(8))}";
    }

    private static string ReadPlaces(SheetFile file)
    {
        var guess = GuessPlaces.Of(file, Kinds, null);
        Held.That(PlaceColumns.From(guess.Columns.ToJson()).ToJson() == guess.Columns.ToJson(), "The columns come back otherwise than they were kept.");
        foreach (var row in guess.Rows.Where(r => r.Trouble is null))
        {
            var cells = new PlaceCells(row, guess.Columns.Meanings, []);
            foreach (var field in guess.Kind.Fields)
            {
                Held.Storable(cells[field], "A cell");
                _ = (FieldReads.Clock(cells[field]), FieldReads.Day(DateOrder.DayFirst)(cells[field]), FieldReads.Same(cells[field]));
            }
        }

        return $"{guess.Kind.Holds} {string.Join(',', guess.Columns.Meanings.Distinct().Order())}";
    }

    /// <summary>Rows that we write come back cell for cell, and no cell of them is run by a spreadsheet.</summary>
    private static void CheckWritten(IEnumerable<SheetRow> all)
    {
        var rows = all.Where(r => r.Trouble is null && r.Cells.Count > 0 && !r.Cells.Any(c => c.Count(s => s is '\n' or '\r') > 30)).ToList();
        var back = TextRows.Read(new StringReader(string.Concat(rows.Select(r => SheetTexts.Line(r.Cells)))), ',').Select(r => r.Cells).ToList();
        Held.That(back.Count == rows.Count, $"{rows.Count} rows were written, {back.Count} read.");
        foreach (var (row, cells) in rows.Zip(back))
        {
            Held.That(
                cells.Count == row.Cells.Count && cells.Zip(row.Cells).All(c => Plain(c.First) == Plain(c.Second) || Plain(c.First) == $"'{Plain(c.Second)}"),
                $"Written was {string.Join('|', row.Cells)}, read {string.Join('|', cells)}.");
            Held.That(cells.All(c => c.Length < 2 || c[0] is not ('=' or '+' or '-' or '@' or '\t' or '\r' or '\n') || CellWords.SaysNothing(c) || CellWords.Number(c) is not null), "A cell was written that a spreadsheet runs.");
        }
    }

    private static string Plain(string text) => text.ReplaceLineEndings("\n");
}
