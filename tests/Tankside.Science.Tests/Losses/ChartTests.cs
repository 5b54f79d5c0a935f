using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class ChartTests
{
    [Theory]
    [InlineData("nist_cusum_6.3.2.3.csv", "S_hi_published", "S_lo_published", 325, 0.3175, 0.011)]
    [InlineData("montgomery_runger_cusum_16-6.csv", "sH_published", "sL_published", 99, 1, 1e-9)]
    public void The_sums_are_the_printed_ones(string file, string high, string low, double target, double slack, double tolerance)
    {
        var sums = Cusum.Start;
        foreach (var row in Rows.Of(file))
        {
            sums = Cusum.Next(sums, row.Number("x"), target, slack);

            Rows.Near(row.Number(high), sums.High, tolerance, $"high {row["i"]}");
            Rows.Near(row.Number(low), sums.Low, tolerance, $"low {row["i"]}");
        }
    }

    // With the printed decision interval of 4.1959 the printed sums are over it from the fourteenth on.
    [Fact]
    public void The_printed_decision_interval_is_crossed_first_at_the_fourteenth()
    {
        var sums = Cusum.Start;
        var first = Rows.Of("nist_cusum_6.3.2.3.csv").First(row =>
        {
            sums = Cusum.Next(sums, row.Number("x"), 325, 0.3175);
            return sums.High > 4.1959;
        });

        Assert.Equal("14", first["i"]);
    }

    [Fact]
    public void The_count_sum_is_the_running_likelihood_ratio()
    {
        int[] counts = [3, 1, 4, 2, 6];
        double[] expected = [1, 0.4, 2, 0.5, 1.5];
        var (sums, logRatio) = (Cusum.Start, 0.0);
        foreach (var (count, usual) in counts.Zip(expected))
        {
            sums = Cusum.Next(sums, count, usual, Cusum.CountSlack(usual, 2));
            logRatio += (count * Math.Log(2)) - usual; // ln of Poisson(2 usual) over Poisson(usual)
        }

        Assert.Equal(logRatio / Math.Log(2), sums.High, 9);
    }

    [Fact]
    public void The_average_is_the_printed_one()
    {
        var average = 50.0;
        foreach (var row in Rows.Of("nist_ewma_6.3.2.4.csv"))
        {
            average = Ewma.Next(average, row.Number("x"), 0.3);
            Rows.Near(row.Number("ewma_published"), average, 0.0101, row["i"]);
        }

        Rows.Near(52.5884, 50 + Ewma.Reach(2.0539, 0.3), 0.0002, "upper limit");
    }

    [Fact]
    public void Wafers_have_the_printed_centre_and_limits()
    {
        var (low, centre, high) = CountChart.Limits([.. Rows.Of("np_chart_wafers.csv").Select(r => (int)r.Number("defectives_of_200"))], 200);

        Assert.Equal((0, 7.14), (low, Math.Round(centre, 9)));
        Rows.Near(15.01184, high, 0.00001, "upper limit");
    }

    [Fact]
    public void What_cannot_be_charted_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Cusum.Next(Cusum.Start, double.NaN, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cusum.Next(Cusum.Start, 1, 0, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Cusum.CountSlack(1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ewma.Next(0, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ewma.Reach(-1, 0.3));
        Assert.Throws<ArgumentException>(() => CountChart.Limits([], 200));
        Assert.Throws<ArgumentOutOfRangeException>(() => CountChart.Limits([201], 200));
    }
}
