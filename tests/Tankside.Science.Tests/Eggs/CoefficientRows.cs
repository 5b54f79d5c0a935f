using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

public class CoefficientRows
{
    private const string File = "development_models.csv";

    public static TheoryData<int> Curves =>
        Rows.Indices(File, row => row["model"].StartsWith("BM90", StringComparison.Ordinal)
            || row["model"].StartsWith("CR81", StringComparison.Ordinal));

    // The formula is worked out here once more from the coefficient file, so a slip in either shows.
    [Theory]
    [MemberData(nameof(Curves))]
    public void Every_curve_follows_its_published_coefficients(int index)
    {
        var row = Rows.Of(File)[index];
        var model = DevelopmentCheckRows.Named(row["model"].Replace("_emerge_", "_swim_", StringComparison.Ordinal));
        for (var t = 1.0; t <= 18; t += 0.5)
        {
            var distance = t - row.Number("p3");
            var expected = row["model"].StartsWith("BM90", StringComparison.Ordinal)
                ? Math.Exp(row.Number("p1") + (row.Number("p2") * Math.Log(distance)))
                : Math.Pow(10, row.Number("p1") + (row.Number("p2") * Math.Log10(distance)));
            Assert.True(model.TryDaysAt(new Celsius(t), out var time));
            Rows.Near(1, time.Days / expected, 1e-9, row["model"]);
            Assert.Equal(1 / time.Days, model.RateAt(new Celsius(t)), 12);
        }
    }

    // The file words the range as "2-15", "about 1.7-12" or "4-13 (misses outside)".
    [Theory]
    [MemberData(nameof(Curves))]
    public void Every_curve_keeps_to_the_range_of_its_source(int index)
    {
        var row = Rows.Of(File)[index];
        var ends = row["valid_c"].Replace("about ", "", StringComparison.Ordinal).Split(' ')[0].Split('-');
        var model = DevelopmentCheckRows.Named(row["model"].Replace("_emerge_", "_swim_", StringComparison.Ordinal));
        Assert.Equal((Rows.Parse(ends[0]), Rows.Parse(ends[1])), (model.FromC, model.ToC));
        Assert.True(model.InRange(new Celsius(model.FromC)) && model.InRange(new Celsius(model.ToC)));
        Assert.False(model.InRange(new Celsius(model.FromC - 0.01)) || model.InRange(new Celsius(model.ToC + 0.01)));
    }

    [Fact]
    public void All_sixteen_curves_are_tested() => Assert.Equal(16, Curves.Count);
}
