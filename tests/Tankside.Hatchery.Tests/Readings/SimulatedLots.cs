using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>
/// Lots that take more or less development than the model says, from a hatchery whose mean is a little wrong, in tanks with thermometers
/// of their own: six report their hatch, six are only read.
/// </summary>
public class SimulatedLots
{
    private const double SharedSd = 0.07, OwnSd = 0.03, HatcherySd = 0.5, ThermometerSd = 0.4, SetPoint = 10.5;

    private const int Lots = 150, Reporting = 6, Silent = 6, LongEnough = 60;

    private static readonly DateOnly Delivered = new(2027, 1, 15);

    private static readonly LotProfile Lot = new("L1", Species.RainbowTrout, Delivered.AddDays(-15), Delivered.AddDays(-15), 9, Delivered, "R1");

    private static readonly StageModel Model =
        StageModels.TryFind(Species.RainbowTrout, Stage.Hatch, out var model, out var why) ? model : throw new InvalidOperationException(why);

    private readonly Random random = new(20_270_115);

    [Fact]
    public void The_error_of_the_siblings_dates_falls_by_more_than_a_third_and_the_interval_still_holds()
    {
        var (before, after, held, wasHeld) = (0.0, 0.0, 0, 0);
        for (var lot = 0; lot < Lots; lot++)
        {
            var (shared, hatchery) = (Draw(SharedSd), Draw(HatcherySd));
            var reporting = Enumerable.Range(0, Reporting).Select(_ => Tank(shared, hatchery)).ToList();
            var today = reporting.Max(t => t.Half) + 2;
            var learned = new LotLearned([.. reporting.SelectMany(t => HatchesSeen.Of(Guid.NewGuid(), Lot, Reports(t, today), SetPoint))]);
            foreach (var (half, read) in Enumerable.Range(0, Silent).Select(_ => Tank(shared, hatchery)))
            {
                var alone = Hatch(read, today, LotLearned.Nothing);
                var taught = Hatch(read, today, learned);
                before += Math.Abs(Delivered.AddDays(half).DayNumber - alone.Mid.DayNumber);
                after += Math.Abs(Delivered.AddDays(half).DayNumber - taught.Mid.DayNumber);
                wasHeld += Holds(alone, half);
                held += Holds(taught, half);
            }
        }

        const double all = Lots * Silent;
        Assert.True(after < before * 2 / 3, $"{before / all:0.00} days before, {after / all:0.00} after");
        Assert.InRange(wasHeld / all, 0.7, 0.9);
        Assert.InRange(held / all, 0.7, 0.9);
    }

    private static int Holds(StageForecast forecast, int half) =>
        Delivered.AddDays(half) >= forecast.Low80 && Delivered.AddDays(half) <= forecast.High80 ? 1 : 0;

    private static StageForecast Hatch(List<TankDay> read, int today, LotLearned learned) =>
        TankDevelopment.On(Delivered.AddDays(today), Lot, [.. read.Take(today)], SetPoint, learned).Hatch!;

    /// <summary>The day on which half hatch, and what the thermometer says each day.</summary>
    private (int Half, List<TankDay> Read) Tank(double shared, double hatchery)
    {
        var needed = Math.Exp(shared + Draw(OwnSd));
        var (thermometer, own) = (Draw(ThermometerSd), Draw(0.2));
        var done = 15 * Model.RateAt(new Celsius(Lot.HatcheryMeanC + hatchery));
        var (half, days) = (0, new List<TankDay>());
        for (var day = 0; day < LongEnough; day++)
        {
            var water = SetPoint + own + Draw(0.3);
            done += Model.RateAt(new Celsius(water));
            half = done >= needed && half == 0 ? day : half;
            days.Add(new TankDay { Day = Delivered.AddDays(day), MeanC = water + thermometer + Draw(0.2) });
        }

        return (half, days);
    }

    /// <summary>What a class says day by day; on weekends nobody looks.</summary>
    private static List<TankDay> Reports((int Half, List<TankDay> Read) tank, int today) => [.. tank.Read.Take(today)
        .Where(d => d.Day.DayOfWeek is not DayOfWeek.Saturday and not DayOfWeek.Sunday)
        .Select(d => new TankDay { Day = d.Day, MeanC = d.MeanC, Hatched = ShareOn(d.Day.DayNumber - Delivered.DayNumber - tank.Half) })];

    private static Share ShareOn(int daysFromHalf) => daysFromHalf switch
    {
        < -1 => Share.None,
        -1 => Share.Some,
        0 => Share.Half,
        1 => Share.Most,
        _ => Share.All,
    };

    private double Draw(double sd) => sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
