using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>A day's count of dead.</summary>
public readonly record struct LossCount(DateOnly Day, int Dead);

/// <summary>
/// What a tank would usually lose: a gamma for its deaths a fish and day, from the programme's base rate and what its lot's siblings lose.
/// </summary>
/// <param name="Mean">Deaths a fish and ordinary day.</param>
/// <param name="DeliveredOn">The first day here.</param>
/// <param name="HatchOn">The day half hatched or should; null when nobody can say.</param>
/// <param name="HatchTimes">How many times the ordinary loss is usual round the hatch.</param>
public sealed record UsualLoss(double Mean, DateOnly DeliveredOn, DateOnly? HatchOn, double HatchTimes)
{
    /// <summary>Spread between tanks, as the shape of a gamma: small is wide (judgement; its false alarms are measured).</summary>
    public const double BetweenTanksShape = 1.2;

    /// <summary>Days before and after half hatch on which weak ones die off (judgement).</summary>
    public const int HatchDays = 4;

    /// <summary>Fish-days that the base rate weighs against the siblings' record.</summary>
    private const double BaseWeight = 2000;

    /// <summary>How far the siblings may raise what is usual over the base rate: a lot that dies in every room must not hide itself (judgement).</summary>
    private const double MostOverBase = 2;

    /// <summary>By base rate and siblings.</summary>
    public static UsualLoss Of(LimitSet limits, SiblingLosses siblings, DateOnly delivered, DateOnly? hatch)
    {
        var own = limits[Limits.LossPerFishDay];
        var mean = ((own * BaseWeight) + siblings.Deaths) / (BaseWeight + siblings.FishDays);
        return new UsualLoss(Math.Min(mean, MostOverBase * own), delivered, hatch, limits[Limits.HatchLossTimes]);
    }

    /// <summary>By the base rate alone, so that a whole lot's trouble cannot make itself usual.</summary>
    public static UsualLoss OfBase(LimitSet limits, LotProfile lot, DevelopmentNow development) =>
        Of(limits, SiblingLosses.None, lot.DeliveredOn, HatchOf(development));

    /// <summary>The day seen where it was seen, else the forecast's.</summary>
    public static DateOnly? HatchOf(DevelopmentNow development) => development.HalfHatchedOn ?? development.Hatch?.Mid;

    /// <summary>The gamma before the tank's own counts: shape, and rate in fish-days.</summary>
    public (double Shape, double Rate) Prior => (BetweenTanksShape, BetweenTanksShape / Mean);

    /// <summary>The gamma after them.</summary>
    public (double Shape, double Rate) After(int deaths, double fishDays) =>
        fishDays > 0 ? GammaPoisson.Posterior(Prior.Shape, Prior.Rate, deaths, fishDays) : Prior;

    /// <summary>Days from the one after <paramref name="after"/> to <paramref name="last"/>, those round the hatch counted as several.</summary>
    public double Days(DateOnly after, DateOnly last)
    {
        var days = last.DayNumber - after.DayNumber;
        if (HatchOn is not { } hatch)
        {
            return days;
        }

        var from = Math.Max(after.DayNumber, hatch.DayNumber - HatchDays - 1);
        var to = Math.Min(last.DayNumber, hatch.DayNumber + HatchDays);
        return days + ((HatchTimes - 1) * Math.Max(0, to - from));
    }
}
