using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Load.Seasons;

/// <summary>One tank's season, told day by day.</summary>
public sealed class TankSeason
{
    private readonly SeasonModel model;
    private readonly Random random;
    private readonly double rate;
    private readonly int hatchDay;
    private readonly int dieOffDay;
    private readonly double dieOffShare;
    private int uncounted;

    /// <param name="delivered">Day of the delivery, from the season's first.</param>
    /// <param name="hatchAfter">Days from there to half hatch.</param>
    public TankSeason(SeasonModel model, Random random, int delivered, int hatchAfter)
    {
        this.model = model;
        this.random = random;
        Delivered = delivered;
        rate = model.PerFishDay * random.Gamma(model.Shape);
        hatchDay = delivered + hatchAfter;
        Alive = model.Fish;
        BelievedHatch = SeasonModel.First.AddDays(hatchDay + (int)Math.Round(model.HatchError * random.Normal()));
        dieOffDay = random.Chance(model.OwnDieOff) ? delivered + random.Next(model.Days - delivered) : int.MaxValue - 10;
        dieOffShare = 0.05 + (0.35 * random.NextDouble());
    }

    public int Delivered { get; }

    public DateOnly DeliveredOn => SeasonModel.First.AddDays(Delivered);

    public DateOnly BelievedHatch { get; }

    public int Alive { get; private set; }

    public List<LossCount> Counts { get; } = [];

    /// <summary>Deaths counted so far, and the fish-days they stand for, as siblings are taken in.</summary>
    public int Deaths { get; private set; }

    public double FishDays => Counts.Count == 0 ? 0 : model.Fish * (Counts[^1].Day.DayNumber - DeliveredOn.DayNumber + 1.0);

    /// <summary>Lives through a day; true when the dead were counted.</summary>
    /// <param name="times">How many times its usual loss it has that day.</param>
    public bool Live(int day, double times = 1)
    {
        if (day < Delivered)
        {
            return false;
        }

        var hatch = Math.Abs(day - hatchDay) <= UsualLoss.HatchDays ? model.HatchTimes : 1;
        Die(random.Poisson(Alive * rate * hatch * times));
        if (day >= dieOffDay && day < dieOffDay + 3)
        {
            Die((int)Math.Round(model.Fish * dieOffShare / 3));
        }

        if (!SeasonModel.IsSchoolDay(day) || !random.Chance(model.Counted))
        {
            return false;
        }

        Counts.Add(new LossCount(SeasonModel.First.AddDays(day), uncounted));
        Deaths += uncounted;
        uncounted = 0;
        return true;
    }

    /// <summary>So many more are dead.</summary>
    public void Die(int fish)
    {
        var dead = Math.Min(fish, Alive);
        Alive -= dead;
        uncounted += dead;
    }

    /// <summary>What the rule says of the counts so far.</summary>
    public LossVerdict? Judge(SiblingLosses siblings, LimitSet limits) => Counts.Count == 0 ? null
        : LossChart.Judge(Counts, Alive + uncounted, UsualLoss.Of(limits, siblings, DeliveredOn, BelievedHatch), limits);
}
