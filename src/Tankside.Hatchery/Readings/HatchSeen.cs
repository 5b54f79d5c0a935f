using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>Which part of a hatch was seen. Half is what dates are of; the others are turned into it and know less.</summary>
public enum HatchMark
{
    Half,
    First,
    Last,
}

/// <summary>A part of a tank's hatch that somebody saw come, and what it says of the lot's error.</summary>
/// <param name="Tank">The tank.</param>
/// <param name="On">The day on which it was seen.</param>
/// <param name="Look">As <see cref="LotLearning"/> takes it.</param>
public sealed record HatchSeen(Guid Tank, DateOnly On, HatchMark Mark, HatchLook Look);

/// <summary>
/// Finds in a tank's days when its hatch came. Only the change from one look to the next dates it: a first look that finds most hatched
/// does not say since when.
/// </summary>
public static class HatchesSeen
{
    /// <summary>A look stands for the middle of its day, and so does the one before: the hatch came between the two, anywhere alike.</summary>
    private const double MiddleOfTheDay = 0.5;

    /// <summary>What the days tell, at most one of each mark.</summary>
    /// <param name="days">The tank's days since delivery, ascending.</param>
    public static IReadOnlyList<HatchSeen> Of(Guid tank, LotProfile lot, IReadOnlyList<TankDay> days, double setPointC)
    {
        var looks = days.Where(d => d.Hatched is not null && d.Day >= lot.DeliveredOn).ToList();

        // Who says "none" takes back all that was said before.
        var none = looks.FindLastIndex(d => d.Hatched == Share.None);
        var since = looks.Skip(none + 1).ToList();
        if (since.Count == 0 || !lot.TryFind(Stage.Hatch, out var model, out _))
        {
            return [];
        }

        var before = none >= 0 ? looks[none] : null;
        var tankHatch = new TankHatch(tank, lot, model, DailyWater.Of(lot.DeliveredOn, since[^1].Day.AddDays(1), days, setPointC));
        return [.. new[] { First(tankHatch, before, since), Half(tankHatch, before, since), Last(tankHatch, since) }.OfType<HatchSeen>()];
    }

    /// <summary>The one that is believed most: half where it was seen, else the surer of the others; null where there is none.</summary>
    public static HatchSeen? Best(IEnumerable<HatchSeen> ofOneTank) =>
        ofOneTank.OrderBy(h => h.Mark != HatchMark.Half).ThenBy(h => h.Look.OtherSd).ThenBy(h => h.Mark).FirstOrDefault();

    private static HatchSeen? First(TankHatch tank, TankDay? none, List<TankDay> since) =>
        none is not null && since[0].Hatched == Share.Some ? tank.Between(HatchMark.First, none.Day, since[0].Day) : null;

    private static HatchSeen? Half(TankHatch tank, TankDay? none, List<TankDay> since)
    {
        var at = since.FindIndex(d => d.Hatched >= Share.Half);
        if (at < 0)
        {
            return null;
        }

        var less = at > 0 ? since[at - 1].Day : none?.Day;
        return less is null && since[at].Hatched != Share.Half ? null
            : tank.Between(HatchMark.Half, less, since[at].Day, justNow: since[at].Hatched == Share.Half);
    }

    private static HatchSeen? Last(TankHatch tank, List<TankDay> since)
    {
        var at = since.FindIndex(d => d.Hatched == Share.All);
        return at > 0 ? tank.Between(HatchMark.Last, since[at - 1].Day, since[at].Day) : null;
    }

    /// <summary>A tank with its water up to the look, by which days become shares of the way to the hatch.</summary>
    private sealed record TankHatch(Guid Tank, LotProfile Lot, StageModel Model, List<DayTemperature> Water)
    {
        /// <param name="after">The last look that had not seen it; null when there was none.</param>
        /// <param name="justNow">Whether it cannot be longer ago than from half to the last.</param>
        public HatchSeen? Between(HatchMark mark, DateOnly? after, DateOnly on, bool justNow = false)
        {
            var (toHalf, toHalfSd) = HatchSpread.ToHalf(Lot.Species);
            var until = FractionIn(on);
            var from = Math.Max(after is { } day ? FractionIn(day) : 0, justNow ? until - toHalf : 0);
            var (shift, shiftSd) = mark switch
            {
                HatchMark.Half => (0, 0),
                HatchMark.First => (toHalf, toHalfSd),
                HatchMark.Last => (-toHalf, toHalfSd),
            };
            var half = ((from + until) / 2) + shift;
            var past = Water[..(on.DayNumber - Lot.DeliveredOn.DayNumber + 1)];
            var inRange = Model.InRange(new Celsius(Lot.HatcheryMeanC)) && past.All(d => Model.InRange(d.Mean));
            var rate = Model.RateAt(past[^1].Mean);
            if (half <= 0 || rate <= 0)
            {
                return null;
            }

            double[] others = [ErrorOfPast(past) * rate, (until - from) / Math.Sqrt(12), shiftSd];
            return new HatchSeen(Tank, on, mark, new HatchLook(
                Math.Log(half),
                TankDevelopment.OwnSd * (inRange ? 1 : Development.OutsideRangeFactor),
                Math.Sqrt(others.Sum(sd => sd * sd)) / half,
                !inRange));
        }

        /// <summary>What the tank alone may be wrong by at that stage, days: spawning days, thermometer, days without a reading.</summary>
        private double ErrorOfPast(List<DayTemperature> past) => Development.Forecast(new ForecastInput
        {
            Model = Model,
            FractionSoFar = 1,
            SpawnSpreadDays = Lot.SpawnSpreadDays,
            SpawnWaterMean = new Celsius(Lot.HatcheryMeanC),
            Past = past,
            ThermometerSd = TankDevelopment.ThermometerSd,
            Future = [past[^1].Mean],
        }).SdDays;

        private double FractionIn(DateOnly day)
        {
            var index = day.DayNumber - Lot.DeliveredOn.DayNumber;
            return LotStart.Of(Lot, Model).Fraction + Water.Take(index).Sum(d => Model.RateAt(d.Mean))
                + (MiddleOfTheDay * Model.RateAt(Water[index].Mean));
        }
    }
}
