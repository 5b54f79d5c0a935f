using Tankside.Hatchery.Readings;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>More dead in two days than the tank's own past and its lot's siblings explain.</summary>
public static class LossRules
{
    /// <summary>Spread between tanks of one lot, as the shape of a gamma: small is wide (judgement; its false alarms are measured).</summary>
    private const double BetweenTanksShape = 1.2;

    /// <summary>Fish-days that the base rate weighs against the siblings' record.</summary>
    private const double BaseWeight = 2000;

    /// <summary>How far the siblings may raise what is usual over the base rate: a lot that dies in every room must not hide itself (judgement).</summary>
    private const double MostOverBase = 2;

    /// <summary>A count older than this many days is history, not an alarm.</summary>
    private const int Stale = 7;

    public static Finding? DieOff(Situation s)
    {
        var counted = s.Record.Days.Where(d => d.Dead is not null).ToList();
        if (counted.Count == 0 || s.Today.DayNumber - counted[^1].Day.DayNumber > Stale)
        {
            return null;
        }

        var last = counted[^1].Day;
        var window = counted.Where(d => d.Day > last.AddDays(-2)).ToList();
        var earlier = counted.Take(counted.Count - window.Count).ToList();
        var dead = window.Sum(d => d.Dead!.Value);
        if (dead < s.Limits[Limits.DieOffFewest])
        {
            return null;
        }

        // What was removed since the count before: after a weekend three days' dead are counted at once.
        var since = earlier.Count > 0 ? earlier[^1].Day : s.Record.Lot!.DeliveredOn.AddDays(-1);
        var days = Math.Clamp(last.DayNumber - since.DayNumber, 1, 14);
        var fish = Math.Max(1, s.Record.Fish + dead);
        var (shape, rate) = Expected(s, earlier, fish);
        var tail = GammaPoisson.UpperTail(shape, rate, (double)fish * days, dead);
        if (tail >= s.Limits[Limits.DieOffTail])
        {
            return null;
        }

        var at = s.Record.Recent.LastOrDefault(r => HasCount(r.Seen))?.At ?? s.Record.Calendar.WindowOf(last).Closes;
        var expected = shape / rate * fish * days;
        var evidence = new LossEvidence(s.Stage, dead, days, last, Math.Round(expected, 2), tail, s.Record.Fish);
        var hazard = Hazard.Around(at, s.Limits[Limits.Losses.DieOffHours], s.Limits[Limits.Losses.DieOffShare]);
        return new Finding(FlagKind.DieOff, Urgency.ActNow, at, evidence, hazard);
    }

    private static bool HasCount(Observation seen) => (seen.DeadEggs ?? seen.DeadAlevins ?? seen.DeadFry) is not null;

    /// <summary>Deaths a fish and day as a gamma: base rate and siblings make the prior, the tank's own earlier counts sharpen it.</summary>
    private static (double Shape, double Rate) Expected(Situation s, List<TankDay> earlier, int fish)
    {
        var mean = ((s.Limits[Limits.LossPerFishDay] * BaseWeight) + s.Record.Siblings.Deaths) / (BaseWeight + s.Record.Siblings.FishDays);
        mean = Math.Min(mean, MostOverBase * s.Limits[Limits.LossPerFishDay]);
        var prior = (Shape: BetweenTanksShape, Rate: BetweenTanksShape / mean);
        if (earlier.Count == 0)
        {
            return prior;
        }

        var deaths = earlier.Sum(d => d.Dead!.Value);
        var days = earlier[^1].Day.DayNumber - s.Record.Lot!.DeliveredOn.DayNumber + 1;
        return GammaPoisson.Posterior(prior.Shape, prior.Rate, deaths, (double)(fish + deaths) * Math.Max(1, days));
    }
}
