using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

/// <summary>The propagated error against eggs that really are drawn, warmed and hatched day by day.</summary>
public class ForecastMonteCarlo
{
    private const int Draws = 20_000;

    public static TheoryData<string> Cases
    {
        get
        {
            var data = new TheoryData<string> { "all" };
            foreach (var name in Enum.GetNames<ForecastPartName>()) data.Add(name);
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Propagated_error_is_within_15_percent_of_drawn_eggs(string cause)
    {
        var input = ForecastTests.Input();
        Near(cause == "all" ? input : ForecastTests.Only(input, Enum.Parse<ForecastPartName>(cause)));
    }

    [Fact]
    public void Propagated_error_is_within_15_percent_for_coho_outside_the_range_and_far_from_hatch()
    {
        Assert.True(StageModels.TryFind(Species.CohoSalmon, Stage.SwimUp, out var coho, out _));
        Near(ForecastTests.Input() with { Model = coho, FractionSoFar = 0.1, OutsideRange = true, Future = [new(4), new(6)] });
    }

    [Fact]
    public void The_80_percent_band_holds_about_80_percent_of_drawn_eggs()
    {
        var input = ForecastTests.Input();
        var band = Development.Forecast(input).Within(0.8);
        var share = Drawn(input).Average(day => day >= band.Low && day <= band.High ? 1.0 : 0.0);
        Assert.InRange(share, 0.77, 0.83);
    }

    private static void Near(ForecastInput input)
    {
        var days = Drawn(input);
        var mean = days.Average();
        var drawn = Math.Sqrt(days.Average(day => (day - mean) * (day - mean)));
        var told = Development.Forecast(input).SdDays;
        Assert.InRange(told / drawn, 0.85, 1.15);
    }

    private static double[] Drawn(ForecastInput input)
    {
        var random = new Random(20_270_203);
        return [.. Enumerable.Range(0, Draws).Select(_ => Hatch(input, random))];
    }

    private static double Hatch(ForecastInput i, Random random)
    {
        double Draw(double sd) =>
            sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        double Rate(double t) => i.Model.RateAt(new Celsius(t));
        var needed = Math.Exp((Draw(i.ModelSharedSd) + Draw(i.ModelOwnSd)) * (i.OutsideRange ? 2 : 1));
        var bias = Draw(i.ThermometerSd);
        var shift = Draw(i.FutureMeanSd);
        var done = i.FractionSoFar + Draw(i.StartFractionSd)
            + ((random.NextDouble() - 0.5) * i.SpawnSpreadDays * Rate(i.SpawnWaterMean.Degrees));
        foreach (var day in i.Past) done += Rate(day.Mean.Degrees + bias + Draw(day.ErrorSd)) - Rate(day.Mean.Degrees);
        for (var day = 0; ; day++)
        {
            var mean = i.Future[Math.Min(day, i.Future.Count - 1)].Degrees;
            var rate = Rate(mean + bias + shift + Draw(i.FutureDaySd));
            if (done + rate >= needed) return day + ((needed - done) / rate);
            done += rate;
        }
    }
}
