using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Readings.Sheets;
using Tankside.Portal.Shell.Sheets;
using static Tankside.Portal.Readings.Sheets.ColumnMeaning;

namespace Tankside.Portal.Tests.Readings.Sheets;

public class GuessTests
{
    private static readonly DateOnly Today = new(2027, 2, 3);

    private static readonly TankNames Tanks = new([Tank("A001", "Room 4"), Tank("A002", "Room 5")]);

    [Theory]
    [InlineData("Water temp °F", Water)]
    [InlineData("Temp", Water)]
    [InlineData("Temperatura del agua", Water)]
    [InlineData("Room temp", Room)]
    [InlineData("Temperatura ambiente", Room)]
    [InlineData("Water level OK?", LevelOk)]
    [InlineData("Water moving", Moving)]
    [InlineData("Dead eggs", DeadEggs)]
    [InlineData("# muertos", Dead)]
    [InlineData("Alevines muertos", DeadAlevins)]
    [InlineData("deadFry", DeadFry)]
    [InlineData("pH", Ph)]
    [InlineData("DO (mg/L)", Oxygen)]
    [InlineData("NH3-N", Ammonia)]
    [InlineData("Chlorine", Chlorine)]
    [InlineData("Date-Time (MST)", Date)]
    [InlineData("Fecha", Date)]
    [InlineData("Hora", Time)]
    [InlineData("Salón", ColumnMeaning.Tank)]
    [InlineData("Comments", Note)]
    [InlineData("Water changed %", WaterChanged)]
    public void Headings_are_known_in_English_and_Spanish(string heading, ColumnMeaning meaning) => Assert.Equal(meaning, HeaderWords.MeaningOf(heading));

    [Theory]
    [InlineData("Student")]
    [InlineData("Initials")]
    [InlineData("Battery, V")]
    [InlineData("DO (% sat)")]
    [InlineData("")]
    public void What_is_not_known_is_not_taken(string heading) => Assert.Null(HeaderWords.MeaningOf(heading));

    [Fact]
    public void A_logger_file_with_lines_above_its_headings()
    {
        var (guess, header) = Guess("\"Plot Title: A002 hallway tank\"\n\"#\",\"Date-Time, GMT-07:00\",\"Temp, °C (S/N: 207)\",\"End Of File\"\n1,\"02/01/2027 06:00:00\",10.8,\n2,\"02/13/2027 06:30:00\",10.9,\n");

        Assert.Equal([LeftOut, Date, Water, LeftOut], guess.Meanings);
        Assert.Equal((2, "A002", TemperatureUnit.C, TimeSpan.FromHours(-7)), (guess.HeaderRow, guess.Tank, guess.WaterUnit, guess.Offset));
        Assert.Equal(["Plot Title: A002 hallway tank"], header.Above);
        Assert.Empty(guess.Questions);
    }

    [Fact]
    public void A_merged_heading_counts_for_the_columns_that_it_explains()
    {
        var (guess, header) = Guess("Tank,Date,Temperature °F,,Dead,,,Notes\n,,Water,Room,eggs,alevins,Moving?,\nA001,2027-02-01,52,70,0,,y,\n");

        Assert.Equal([ColumnMeaning.Tank, Date, Water, Room, DeadEggs, DeadAlevins, Moving, Note], guess.Meanings);
        Assert.Equal((TemperatureUnit.F, TemperatureUnit.F), (guess.WaterUnit, guess.RoomUnit));
        Assert.Equal("Moving?", header.Titles[6]);
    }

    [Theory]
    [InlineData("2/13/2027", DateOrder.MonthFirst)]
    [InlineData("13/2/2027", DateOrder.DayFirst)]
    [InlineData("2/3/2027", null)]
    [InlineData("1/12/2027", DateOrder.MonthFirst)] // 1 December would lie ahead.
    [InlineData("2/2/2027", DateOrder.MonthFirst)] // Either way the same day.
    [InlineData("2027-02-01", DateOrder.MonthFirst)]
    public void Month_and_day_are_told_apart_or_asked(string date, DateOrder? order)
    {
        var guess = Guess($"Tank,Date,Water\nA001,{date},52\n", date == "2/3/2027" ? new DateOnly(2027, 6, 1) : Today).Guess;

        Assert.Equal(order, guess.DateOrder);
        Assert.Equal(order is null, guess.Questions.Contains(ColumnQuestion.MonthOrDayFirst));
    }

    [Fact]
    public void The_column_whose_cells_fit_is_taken_where_two_have_one_meaning() =>
        Assert.Equal([LeftOut, Date, ColumnMeaning.Tank, LeftOut, Water], Guess("Day,Date,Tank,School,Temp\nMon,2027-02-01,A001,Elsewhere,52\n").Guess.Meanings);

    [Theory]
    [InlineData("52,51,50", TemperatureUnit.F)]
    [InlineData("11,10.5,11", TemperatureUnit.C)]
    [InlineData("52,11,51", null)]
    public void A_heading_without_a_scale_takes_that_of_its_numbers(string waters, TemperatureUnit? unit) => Assert.Equal(
        unit, Guess("Tank;Date;Water\n" + string.Concat(waters.Split(',').Select((w, i) => $"A001;2027-01-{i + 10};{w}\n"))).Guess.WaterUnit);

    [Fact]
    public void Dead_of_no_named_stage_no_tank_and_no_date_are_asked() => Assert.Equal(
        [ColumnQuestion.WhichIsTheDate, ColumnQuestion.WhichTank, ColumnQuestion.DeadOfWhatStage],
        Guess("Water,Dead\n52,1\n").Guess.Questions);

    [Fact]
    public void A_sheet_without_headings_loses_no_row() => Assert.Equal((0, 2), (Guess("1,2\n3,4\n").Guess.HeaderRow, Guess("1,2\n3,4\n").Guess.Meanings.Count));

    private static NamedTank Tank(string code, string room) => new(Guid.NewGuid(), code, TemperatureUnit.F, "Birch Lane School", room, new TimeOnly(8, 0));

    private static (SheetColumns Guess, SheetHeader Header) Guess(string text, DateOnly? today = null)
    {
        var file = SheetFile.Open(Encoding.UTF8.GetBytes(text));
        return (GuessColumns.Of(file, Tanks, today ?? Today), SheetHeader.Find(file.Rows(), HeaderWords.Reader));
    }
}
