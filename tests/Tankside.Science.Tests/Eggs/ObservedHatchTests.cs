using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

/// <summary>Observed hatch times, mostly Velsen's 1987 compilation, against the curves.</summary>
public class ObservedHatchTests
{
    private sealed record Seen(StageModel Model, Celsius Water, double Days, StageTime Told);

    private static readonly Seen[] All =
        [.. Rows.Of("observed_hatch_times.csv").Where(row => row["stage"] is "hatch" or "hatch50").Select(Read)];

    [Fact]
    public void Rainbow_trout_hatch_is_told_within_three_days_on_average_at_4_to_13_C()
    {
        var seen = InRange(Species.RainbowTrout);
        Assert.Equal(29, seen.Length);
        var error = seen.Average(s => Math.Abs(s.Told.Days - s.Days));
        Assert.True(error <= 3.0, FormattableString.Invariant($"mean absolute error {error} days"));
    }

    [Fact]
    public void Atlantic_salmon_hatch_is_told_within_six_percent_on_average()
    {
        var seen = InRange(Species.AtlanticSalmon);
        Assert.Equal(9, seen.Length);
        Assert.True(seen.Average(s => Math.Abs(Math.Log(s.Told.Days / s.Days))) <= 0.06);
    }

    [Theory]
    [InlineData(Species.RainbowTrout)]
    [InlineData(Species.AtlanticSalmon)]
    [InlineData(null)]
    public void The_80_percent_interval_holds_70_to_90_percent_of_what_was_seen(Species? species)
    {
        var seen = All.Where(s => s.Told.InRange && (species is null || s.Model.Species == species)).ToArray();
        var share = seen.Average(s => Holds(s) ? 1.0 : 0.0);
        Assert.InRange(share, 0.70, 0.90);
    }

    [Fact]
    public void Above_13_C_the_rainbow_curve_is_early_and_marked()
    {
        var warm = All.Where(s => s.Model.Species == Species.RainbowTrout && s.Water.Degrees > 13).ToArray();
        Assert.Equal(5, warm.Length);
        Assert.All(warm, s => Assert.True(!s.Told.InRange && s.Told.Days < s.Days));
    }

    [Fact]
    public void Outside_the_range_the_interval_is_twice_as_wide_in_logarithm()
    {
        var model = All[0].Model;
        var (inside, outside) = (Development.Interval(40, model, true), Development.Interval(40, model, false));
        Assert.Equal(2 * Math.Log(inside.High / inside.Low), Math.Log(outside.High / outside.Low), 9);
        Assert.Equal((40, 40), (inside.Mid, outside.Mid));
        Assert.Throws<ArgumentOutOfRangeException>(() => Development.Interval(-1, model, true));
    }

    private static Seen[] InRange(Species species) => [.. All.Where(s => s.Model.Species == species && s.Told.InRange)];

    private static bool Holds(Seen s)
    {
        var band = Development.Interval(s.Told.Days, s.Model, s.Told.InRange);
        return s.Days >= band.Low && s.Days <= band.High;
    }

    private static Seen Read(IReadOnlyDictionary<string, string> row)
    {
        var species = row["species"] switch
        {
            "atlantic_salmon" => Species.AtlanticSalmon,
            "brown_trout" => Species.BrownTrout,
            _ => Species.RainbowTrout,
        };
        Assert.True(StageModels.TryFind(species, Stage.Hatch, out var model, out _));
        var water = new Celsius(row.Number("temp_c"));
        Assert.True(model.TryDaysAt(water, out var told));
        return new Seen(model, water, row.Number("days"), told);
    }
}
