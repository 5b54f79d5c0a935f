using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

public class HandbookTests
{
    private const string File = "handbook_days_to_hatch.csv";

    public static TheoryData<int> Cells => Rows.Indices(File, _ => true);

    [Theory]
    [MemberData(nameof(Cells))]
    public void Every_cell_of_the_handbook_is_exact(int index)
    {
        var row = Rows.Of(File)[index];
        Assert.True(SpeciesCodes.TryParse(row["species"].Replace('_', '-'), null, out var species));
        Assert.True(HandbookDays.TryDays(species, row.Number("temp_f"), out var days));
        Assert.Equal(row.Number("days_to_hatch"), days);
    }

    [Theory]
    [MemberData(nameof(Cells))]
    public void Table_models_give_the_same_cells_from_celsius(int index)
    {
        var row = Rows.Of(File)[index];
        Assert.True(SpeciesCodes.TryParse(row["species"].Replace('_', '-'), null, out var species));
        if (species is not (Species.BrookTrout or Species.LakeTrout)) return;
        Assert.True(StageModels.TryFind(species, Stage.Hatch, out var model, out _));
        Assert.True(model.TryDaysAt(Celsius.FromFahrenheit(row.Number("temp_f")), out var time));
        Assert.Equal(row.Number("days_to_hatch"), time.Days, 9);
        Assert.True(time.InRange);
    }

    [Fact]
    public void Between_cells_the_logarithm_of_days_is_linear()
    {
        Assert.True(HandbookDays.TryDays(Species.BrookTrout, 47.5, out var days));
        Assert.Equal(Math.Sqrt(68.0 * 44.0), days, 9);
    }

    [Theory]
    [InlineData(Species.BrookTrout, 34)]
    [InlineData(Species.BrookTrout, 56)]
    [InlineData(Species.LakeTrout, 51)]
    [InlineData(Species.BrownTrout, double.NaN)]
    [InlineData(Species.CohoSalmon, 45)]
    public void Outside_the_table_there_is_no_answer(Species species, double f) =>
        Assert.False(HandbookDays.TryDays(species, f, out _));

    [Fact]
    public void The_printed_end_of_55_F_is_found_when_read_as_12_8_C()
    {
        Assert.True(StageModels.TryFind(Species.BrookTrout, Stage.Hatch, out var model, out _));
        Assert.True(model.TryDaysAt(new Celsius(12.8), out var time));
        Assert.Equal(35, time.Days, 9);
        Assert.False(model.TryDaysAt(new Celsius(12.9), out _));
    }

    [Fact]
    public void Outside_a_table_a_sum_holds_the_rate_of_the_nearest_end()
    {
        Assert.True(StageModels.TryFind(Species.LakeTrout, Stage.Hatch, out var model, out _));
        Assert.Equal(1 / 162.0, model.RateAt(new Celsius(0.5)), 12);
        Assert.Equal(1 / 49.0, model.RateAt(new Celsius(14)), 12);
        Assert.False(model.InRange(new Celsius(14)));
        Assert.False(model.ExtrapolatesOutside);
    }
}
