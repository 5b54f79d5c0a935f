using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Tests.Readings.Sheets;

public class CellTests
{
    private static readonly NamedTank Tank = new(Guid.NewGuid(), "A001", TemperatureUnit.F, "Birch Lane School", "Room 1", new TimeOnly(8, 0));

    [Theory]
    [InlineData("2027-02-03", "2027-02-03")]
    [InlineData("2027-02-03T08:15:00", "2027-02-03 08:15")]
    [InlineData("2/3/2027 8:15 PM", "2027-02-03 20:15")]
    [InlineData("2/3/27", "2027-02-03")]
    [InlineData("Feb 3, 2027 12:05 am", "2027-02-03 00:05")]
    [InlineData("Wed, Feb 3 2027", "2027-02-03")]
    [InlineData("3 de febrero de 2027", "2027-02-03")]
    [InlineData("3-feb-2027", "2027-02-03")]
    [InlineData("46421", "2027-02-03")]
    [InlineData("46421.34375", "2027-02-03 08:15")]
    public void Dates_are_read_as_people_and_programs_write_them(string cell, string expected)
    {
        var moment = SheetDates.Read(cell, DateOrder.MonthFirst)!.Value;

        Assert.Equal(expected, moment.Time is { } time ? $"{moment.Day:yyyy-MM-dd} {time:HH:mm}" : moment.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
    }

    [Theory]
    [InlineData("2/3")]
    [InlineData("13/13/2027")]
    [InlineData("2027-02-30")]
    [InlineData("yesterday")]
    [InlineData("2027-02-03 soon")]
    [InlineData("52")]
    public void What_is_no_whole_date_is_none(string cell) => Assert.Null(SheetDates.Read(cell, DateOrder.MonthFirst));

    [Theory]
    [InlineData("8:15", "08:15")]
    [InlineData("8:15 a. m.", "08:15")]
    [InlineData("12:00 AM", "00:00")]
    [InlineData("1 PM", "13:00")]
    [InlineData("13h05", "13:05")]
    [InlineData("0.34375", "08:15")]
    [InlineData("25:00", null)]
    [InlineData("13 PM", null)]
    [InlineData("8", null)]
    public void Times_of_day(string cell, string? expected) =>
        Assert.Equal(expected, SheetDates.ReadTime(cell)?.ToString("HH:mm", CultureInfo.InvariantCulture));

    [Theory]
    [InlineData("✓", true)]
    [InlineData("sí", true)]
    [InlineData("OK", true)]
    [InlineData("N", false)]
    [InlineData("0", false)]
    [InlineData("maybe", null)]
    public void Ticks(string cell, bool? expected) => Assert.Equal(expected, CellWords.YesNo(cell));

    /// <summary>The slips that people make, in a column of each scale.</summary>
    [Theory]
    [InlineData("11", "F", "asked 11 C")]
    [InlineData("11.1", "F", "asked 11.1 C")]
    [InlineData("52", "F", "believed 11.11")]
    [InlineData("5.2", "F", "asked 52 F")]
    [InlineData("512", "F", "refused")]
    [InlineData("111", "F", "asked 11.1 C")]
    [InlineData("52,5", "F", "believed 11.39")]
    [InlineData("", "F", "nothing")]
    [InlineData("-1", "F", "asked")]
    [InlineData("11", "C", "believed 11")]
    [InlineData("11.1", "C", "believed 11.1")]
    [InlineData("52", "C", "asked 52 F")]
    [InlineData("5.2", "C", "believed 5.2")]
    [InlineData("512", "C", "refused")]
    [InlineData("111", "C", "refused")]
    [InlineData("52,5", "C", "asked 52.5 F")]
    [InlineData("", "C", "nothing")]
    [InlineData("-1", "C", "asked")]
    [InlineData("22", "C", "asked")]
    [InlineData("31.9", "C", "asked")]
    [InlineData("22", "F", "asked")]
    [InlineData("31.9", "F", "asked")]
    public void A_slip_is_understood_asked_or_refused_and_what_was_typed_is_kept(string typed, string scale, string expected)
    {
        var columns = new SheetColumns
        {
            Meanings = [ColumnMeaning.Date, ColumnMeaning.Water],
            WaterUnit = Enum.Parse<TemperatureUnit>(scale),
            DateOrder = DateOrder.MonthFirst,
            Tank = "A001",
        };
        var reader = new RowReader(columns, ["Date", "Water"], new TankNames([Tank]), ProgrammeClock.Of("America/Denver"), Guid.NewGuid(), Guid.NewGuid(), Say.InEnglish);

        var said = reader.Read(new SheetRow(2, ["2027-02-03", typed]));

        if (said is not RowSaid.Reading { Incoming.Water: { } water } reading)
        {
            Assert.Equal(("nothing", true), (expected, said is RowSaid.Nothing));
            return;
        }

        Assert.Equal((typed, new DateTime(2027, 2, 3, 15, 0, 0, DateTimeKind.Utc)), (water.Text, reading.Incoming.At));
        var verdict = WaterTemperature.Judge(water.Value, water.Unit, reading.Incoming.At, new TankHabits(null, null, 208, Science.Heat.Jacket.None, 21));
        Assert.StartsWith(expected, verdict switch
        {
            WaterVerdict.Believed(var celsius) => FormattableString.Invariant($"believed {celsius}"),
            WaterVerdict.Doubted d => FormattableString.Invariant($"asked {WaterTemperature.FromC(d.Understood, d.UnderstoodUnit):0.#} {d.UnderstoodUnit}"),
            _ => "refused",
        }, StringComparison.Ordinal);
    }
}
