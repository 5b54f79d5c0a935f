using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

/// <summary>Every row of the published, computed and derived checks of egg development.</summary>
public class DevelopmentCheckRows
{
    private const string File = "development_checks.csv";

    public static TheoryData<int> Published =>
        Rows.Indices(File, row => row["kind"] is "published" or "equation" && row["model"] != "arith");

    public static TheoryData<int> Arithmetic => Rows.Indices(File, row => row["model"] == "arith");

    public static TheoryData<int> Table => Rows.Indices(File, row => row["kind"] == "table");

    public static TheoryData<int> Derived => Rows.Indices(File, row => row["kind"] == "derived");

    public static TheoryData<int> KnownMisses => Rows.Indices(File, row => row["kind"] == "known_miss");

    [Fact]
    public void Every_row_is_tested() =>
        Assert.Equal(Rows.Of(File).Count, new[] { Published, Arithmetic, Table, Derived, KnownMisses }.Sum(data => data.Count));

    [Theory]
    [MemberData(nameof(Published))]
    public void A_published_time_is_met_within_its_tolerance(int index)
    {
        var row = Rows.Of(File)[index];
        Rows.Near(row.Number("expected"), Answer(row["model"], Inputs(row)), row.Number("tolerance"), row["source"]);
    }

    [Theory]
    [MemberData(nameof(Arithmetic))]
    public void Thermal_unit_arithmetic_gives_the_printed_number(int index)
    {
        var row = Rows.Of(File)[index];
        Rows.Near(row.Number("expected"), Units(row["unit"], Inputs(row)), row.Number("tolerance"), row["input"]);
    }

    [Theory]
    [MemberData(nameof(Table))]
    public void A_handbook_cell_is_exact(int index)
    {
        var row = Rows.Of(File)[index];
        var inputs = Inputs(row);
        Assert.True(SpeciesCodes.TryParse(inputs["species"].Replace('_', '-'), null, out var species));
        Assert.True(HandbookDays.TryDays(species, Rows.Parse(inputs["F"]), out var days));
        Assert.Equal(row.Number("expected"), days);
    }

    [Theory]
    [MemberData(nameof(Derived))]
    public void Daily_fractions_add_up_to_the_derived_day(int index)
    {
        var row = Rows.Of(File)[index];
        var inputs = Inputs(row);
        List<Celsius> days = [];
        foreach (var step in inputs["profile"].Split(';'))
        {
            var parts = step.Split('x');
            var count = parts[0] == "*" ? 1 : (int)Rows.Parse(parts[0]);
            days.AddRange(Enumerable.Repeat(new Celsius(Rows.Parse(parts[1])), count));
        }

        var until = Development.DaysUntil(Named(inputs["model"]), 0, days);
        Assert.Equal(row.Number("expected"), Math.Ceiling(until!.Value));
    }

    [Theory]
    [MemberData(nameof(KnownMisses))]
    public void A_known_miss_is_answered_and_marked_out_of_range(int index)
    {
        var row = Rows.Of(File)[index];
        Assert.True(Named(row["model"]).TryDaysAt(At(Inputs(row)), out var time));
        Assert.False(time.InRange);
        Assert.True(Math.Abs(time.Days - row.Number("expected")) > row.Number("tolerance"), "no longer a miss");
    }

    [Fact]
    public void Thirty_days_at_5_then_10_hatch_coho_on_day_60_59()
    {
        IReadOnlyList<Celsius> days = [.. Enumerable.Repeat(new Celsius(5), 30), new Celsius(10)];
        Assert.Equal(60.59, Development.DaysUntil(Named("BM90_hatch_coho"), 0, days)!.Value, 2);
    }

    internal static StageModel Named(string name)
    {
        var stage = name.Contains("_hatch_", StringComparison.Ordinal) ? Stage.Hatch : Stage.SwimUp;
        var species = name.Split('_', 3)[2] switch
        {
            "pink_odd" => Species.PinkSalmonOdd,
            "pink_even" => Species.PinkSalmonEven,
            "chum" => Species.ChumSalmon,
            "chinook" => Species.ChinookSalmon,
            "coho" => Species.CohoSalmon,
            "sockeye" => Species.SockeyeSalmon,
            "atlantic" => Species.AtlanticSalmon,
            "brown" => Species.BrownTrout,
            "rainbow" => Species.RainbowTrout,
            _ => throw new InvalidOperationException(name),
        };
        if (name == "CR81_hatch_chinook") return ChinookSecondOpinion.Hatch;
        return StageModels.TryFind(species, stage, out var model, out var why) ? model : throw new InvalidOperationException(why);
    }

    private static double Answer(string model, Dictionary<string, string> inputs)
    {
        var water = At(inputs);
        return model switch
        {
            "RO85_ponding_chinook" => ChinookSecondOpinion.PondingDays(water),
            "RO85_maww_chinook" => ChinookSecondOpinion.GreatestAlevinWeightDays(water, Rows.Parse(inputs["W"])),
            "HE82_feedzone_chinook" => ChinookSecondOpinion.FirstFeedingWindow(water).To.CelsiusDays,
            "1.7*CR81_hatch_rainbow" => Days(RainbowSwimUp(), water),
            _ => Days(Named(model), water),
        };
    }

    private static StageModel RainbowSwimUp() =>
        StageModels.TryFind(Species.RainbowTrout, Stage.SwimUp, out var model, out var why)
            ? model
            : throw new InvalidOperationException(why);

    private static double Days(StageModel model, Celsius water) =>
        model.TryDaysAt(water, out var time) ? time.Days : throw new InvalidOperationException("no answer");

    private static double Units(string unit, Dictionary<string, string> inputs)
    {
        if (inputs.TryGetValue("target", out var target))
        {
            var goal = ThermalUnits.FromFahrenheitDays(Rows.Parse(target));
            var have = ThermalUnits.FromFahrenheitDays(Rows.Parse(inputs["have"]));
            return have.DaysUntil(goal, Celsius.FromFahrenheit(Rows.Parse(inputs["F"])))!.Value;
        }

        if (inputs.TryGetValue("atu", out var units))
            return new ThermalUnits(0).DaysUntil(new ThermalUnits(Rows.Parse(units)), At(inputs))!.Value;
        if (unit == "C-day") return ThermalUnits.At(At(inputs), Rows.Parse(inputs["days"])).CelsiusDays;
        var today = ThermalUnits.At(Celsius.FromFahrenheit(Rows.Parse(inputs["F"])), 1);
        return (ThermalUnits.FromFahrenheitDays(Rows.Parse(inputs["have"])) + today).FahrenheitDays;
    }

    private static Celsius At(Dictionary<string, string> inputs) => new(Rows.Parse(inputs["T"]));

    private static Dictionary<string, string> Inputs(IReadOnlyDictionary<string, string> row) =>
        row["input"].Split('|').Select(pair => pair.Split('=', 2)).ToDictionary(pair => pair[0], pair => pair[1]);
}
