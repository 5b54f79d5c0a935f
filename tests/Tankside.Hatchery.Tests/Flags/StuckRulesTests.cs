using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

public class StuckRulesTests
{
    private static Finding? Stuck(TankStory tank, int day = 0) => StuckRules.NeverChanges(tank.Situation(day));

    private static double F(double fahrenheit) => Math.Round(Celsius.FromFahrenheit(fahrenheit).Degrees, 2);

    /// <summary>One look a day, the last of them on the Wednesday.</summary>
    private static TankStory Daily(params double[] celsius)
    {
        var tank = TankStory.Eggs().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(-60) });
        return celsius.Index().Aggregate(tank, (t, look) => t.Water(look.Index - celsius.Length + 1, 9, look.Item));
    }

    private static double[] Times(int count, double celsius) => [.. Enumerable.Repeat(celsius, count)];

    private static StuckEvidence Numbers(Finding? found) => Assert.IsType<StuckEvidence>(found!.Evidence);

    [Fact]
    public void Eight_equal_tenths_are_too_many()
    {
        Assert.Null(Stuck(Daily([10.2, .. Times(7, 10.4)])));

        var found = Stuck(Daily([10.2, .. Times(8, 10.4)]));
        Assert.Equal((FlagKind.StuckThermometer, Urgency.ThisWeek, TankStory.At(0, 9)), (found!.Kind, found.Urgency, found.StandsOn));
        Assert.Equal((8, TankStory.Wednesday.AddDays(-7), ThermometerStep.Fine), (Numbers(found).Looks, Numbers(found).Since, Numbers(found).Step));
    }

    [Fact]
    public void Fifteen_equal_whole_degrees_Fahrenheit_are()
    {
        Assert.Null(Stuck(Daily([F(50), .. Times(14, F(51))])));
        Assert.Equal(ThermometerStep.WholeFahrenheit, Numbers(Stuck(Daily([F(50), .. Times(15, F(51))]))).Step);
        Assert.Equal(15, Numbers(Stuck(Daily(Times(15, F(50))))).Looks); // 10 °C and 50 °F at once: read as °F.
    }

    [Fact]
    public void Whole_degrees_Celsius_need_thirty()
    {
        Assert.Null(Stuck(Daily([10, .. Times(29, 11)])));
        Assert.Equal(ThermometerStep.WholeCelsius, Numbers(Stuck(Daily([10, .. Times(30, 11)]))).Step);
    }

    [Fact]
    public void Half_degrees_need_fifteen_where_the_other_days_show_halves()
    {
        Assert.Null(Stuck(Daily([10, 11, 10, .. Times(14, 10.5)])));
        Assert.Equal(ThermometerStep.HalfCelsius, Numbers(Stuck(Daily([10, 11, 10, .. Times(15, 10.5)]))).Step);
        Assert.Equal(ThermometerStep.Fine, Numbers(Stuck(Daily([10.2, 10.6, 10.3, .. Times(8, 10.5)]))).Step);
    }

    [Fact]
    public void A_whole_value_of_a_fine_thermometer_is_a_fine_value() =>
        Assert.Equal(ThermometerStep.Fine, Numbers(Stuck(Daily([10.8, 11.2, 10.9, .. Times(8, 11)]))).Step);

    [Fact]
    public void One_fine_reading_among_whole_degrees_does_not_make_the_thermometer_fine() =>
        Assert.Null(Stuck(Daily([F(50), F(52), 10.7, F(50), F(51), F(52), .. Times(9, F(51))])));

    [Fact]
    public void A_logger_counts_twice_a_day()
    {
        var tank = TankStory.Eggs().Lot(l => l with { DeliveredOn = TankStory.Wednesday.AddDays(-60) }).Water(-4, 9, 10.2);
        for (var minute = 0; minute < 3 * 24 * 60; minute += 10)
        {
            tank.Water(-3, minute / 60.0, 10.4);
        }

        Assert.Null(Stuck(tank)); // Three days: six looks out of 432 readings.
        Assert.Equal(8, Numbers(Stuck(tank.Water(0, 1, 10.4).Water(0, 9, 10.4))).Looks);
    }

    [Fact]
    public void Readings_of_one_morning_are_one_look() =>
        Assert.Null(Stuck(Enumerable.Range(0, 20).Aggregate(TankStory.Eggs(), (tank, i) => tank.Water(0, 8 + (i / 10.0), 10.4))));

    [Fact]
    public void A_reading_that_differs_ends_it_and_an_equal_old_one_that_comes_late_adds_nothing()
    {
        Assert.Null(Stuck(Daily([10.2, .. Times(8, 10.4)]).Water(0, 11, 10.5)));
        Assert.Equal(Stuck(Daily([10.2, .. Times(8, 10.4)])), Stuck(Daily([10.2, .. Times(8, 10.4)]).Water(-3, 10, 10.4)));
    }

    [Fact]
    public void The_programme_may_set_its_own_number() =>
        Assert.NotNull(Stuck(Daily([10, .. Times(15, 11)]).With(Limits.StuckWholeCelsius, 15)));

    /// <summary>
    /// Steady tanks at wherever their degree happens to fall, read once a day for 110 days: in how many seasons of a hundred the rule would
    /// have called the thermometer stuck at least once.
    /// </summary>
    [Theory]
    [InlineData(ThermometerStep.Fine, 0.3, 0, 0.5)]
    [InlineData(ThermometerStep.WholeFahrenheit, 0.3, 0.3, 5)]
    [InlineData(ThermometerStep.WholeFahrenheit, 0.5, 0, 1)]
    [InlineData(ThermometerStep.HalfCelsius, 0.3, 0, 3)]
    [InlineData(ThermometerStep.WholeCelsius, 0.3, 3, 20)]
    [InlineData(ThermometerStep.WholeCelsius, 0.4, 0, 3)]
    [InlineData(ThermometerStep.WholeCelsius, 0.5, 0, 1)]
    public void How_often_a_steady_tank_is_called_stuck(ThermometerStep step, double sd, double least, double most)
    {
        var random = new Random(20270120);
        const int Seasons = 400;
        var alarms = Enumerable.Range(0, Seasons).Count(_ => CalledStuck(random, step, sd));

        Assert.True(100.0 * alarms / Seasons >= least && 100.0 * alarms / Seasons <= most, $"{alarms} of {Seasons}");
    }

    private static bool CalledStuck(Random random, ThermometerStep step, double sd)
    {
        var mean = 9.5 + (2 * random.NextDouble());
        double[] season = [.. Enumerable.Range(0, 110).Select(_ => Read(mean + (sd * Normal(random)), step))];
        var record = Daily(season).Record;
        return LongestRuns(season).Any(through => StuckRules.NeverChanges(new Situation(
            record with { Days = [.. record.Days.Take(through)], Recent = [new ReadingFact(record.Days[through - 1].LastAt, new Observation { WaterC = season[through - 1] }, true)] },
            record.Days[through - 1].LastAt)) is not null);
    }

    /// <summary>The ends of runs of eight or more: if no alarm is raised there, none is before.</summary>
    private static IEnumerable<int> LongestRuns(double[] season) => Enumerable.Range(8, season.Length - 7).Where(through =>
        (through == season.Length || season[through] != season[through - 1]) && season[(through - 8)..through].All(c => c == season[through - 1]));

    private static double Read(double celsius, ThermometerStep step) => step switch
    {
        ThermometerStep.Fine => Math.Round(celsius, 1),
        ThermometerStep.HalfCelsius => Math.Round(celsius * 2) / 2,
        ThermometerStep.WholeFahrenheit => F(Math.Round((celsius * 1.8) + 32)),
        ThermometerStep.WholeCelsius => Math.Round(celsius),
    };

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
