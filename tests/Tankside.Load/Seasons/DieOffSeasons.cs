using Tankside.Hatchery.Flags;

namespace Tankside.Load.Seasons;

/// <summary>Days from when losses multiplied to when the rule said so.</summary>
/// <param name="Median">Null when fewer than half were noticed.</param>
public sealed record Notice(double Times, int Tanks, double Noticed, int? Median, int? Ninety);

/// <summary>Seasons of lots of eight tanks through the die-off rule.</summary>
public static class DieOffSeasons
{
    public const int Lot = 8;

    /// <summary>Flags opened a tank-season in which nothing is wrong: many at once, and slow rises.</summary>
    public static (double AtOnce, double Rising) FalseAlarms(SeasonModel model, LimitSet limits, int lots, int seed)
    {
        var quiet = model with { OwnDieOff = 0 };
        long atOnce = 0, rising = 0;
        Parallel.For(0, lots, lot =>
        {
            var standing = new bool[Lot];
            Through(quiet, limits, new Random(seed + lot), 1, int.MaxValue, (tank, _, verdict) =>
            {
                if (verdict is not null && !standing[tank])
                {
                    Interlocked.Increment(ref verdict.Rising ? ref rising : ref atOnce);
                }

                standing[tank] = verdict is not null;
                return true;
            });
        });
        var tanks = (double)lots * Lot;
        return (atOnce / tanks, rising / tanks);
    }

    /// <summary>One tank of each lot loses so many times as much from a day between the 30th and the 90th on.</summary>
    public static Notice Notices(SeasonModel model, LimitSet limits, double times, int lots, int seed)
    {
        var quiet = model with { OwnDieOff = 0 };
        var after = new int?[lots];
        Parallel.For(0, lots, lot =>
        {
            var random = new Random(seed + (int)(times * 1_000_000) + lot);
            var from = random.Next(30, 90);
            Through(quiet, limits, random, times, from, (tank, day, verdict) =>
            {
                if (tank != 0 || day < from || verdict is null)
                {
                    return true;
                }

                after[lot] = day - from;
                return false;
            });
        });
        var days = after.Select(d => d ?? int.MaxValue).Order().ToList();
        int? At(double share) => days[(int)(share * (lots - 1))] is var d && d < int.MaxValue ? d : null;
        return new Notice(times, lots, after.Count(d => d is not null) / (double)lots, At(0.5), At(0.9));
    }

    /// <summary>Tells every verdict of every day until told to stop.</summary>
    private static void Through(
        SeasonModel model, LimitSet limits, Random random, double times, int from, Func<int, int, Hatchery.Flags.Rules.LossVerdict?, bool> tell)
    {
        var hatch = model.HatchDay + random.Next(-3, 4);
        var tanks = Enumerable.Range(0, Lot).Select(_ => new TankSeason(model, random, 0, hatch)).ToArray();
        for (var day = 0; day < model.Days; day++)
        {
            for (var i = 0; i < Lot; i++)
            {
                var tank = tanks[i];
                if (!tank.Live(day, i == 0 && day >= from ? times : 1))
                {
                    continue;
                }

                var siblings = new SiblingLosses(tanks.Sum(t => t.Deaths) - tank.Deaths, tanks.Sum(t => t.FishDays) - tank.FishDays);
                if (!tell(i, day, tank.Judge(siblings, limits)))
                {
                    return;
                }
            }
        }
    }
}
