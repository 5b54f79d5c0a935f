using Tankside.Hatchery.Flags;

namespace Tankside.Load.Seasons;

/// <summary>False shared causes of many seasons.</summary>
/// <param name="Wrong">Share of seasons with at least one.</param>
/// <param name="Flags">Opened a season.</param>
public sealed record SharedWrong(int Tanks, int Seasons, double Wrong, double Flags, IReadOnlyDictionary<SharedBy, int> By);

/// <summary>How often a real shared cause was found, and how many school days after it began.</summary>
public sealed record SharedFound(string What, int Seasons, double Named, int? Median, int? Ninety);

/// <summary>Programme-seasons through the search for shared causes.</summary>
public static class SharedSeasons
{
    public static SharedWrong FalseAlarms(SeasonModel model, LimitSet limits, int tanks, int seasons, int seed)
    {
        var opened = new List<SharedBy>[seasons];
        Parallel.For(0, seasons, number =>
        {
            var season = new ProgrammeSeason(model, limits, new Random(seed + (tanks * 1_000_000) + number), tanks);
            var standing = new HashSet<(SharedBy By, string Code)>();
            opened[number] = [];
            for (var day = 0; day < model.Days; day++)
            {
                if (!SeasonModel.IsSchoolDay(day))
                {
                    season.Live(day);
                    continue;
                }

                var now = season.Live(day).Select(f => (SharedCauseEvidence)f.Evidence).Select(e => (e.By, e.Code)).ToHashSet();
                opened[number].AddRange(now.Except(standing).Select(n => n.By));
                standing = now;
            }
        });
        return new SharedWrong(
            tanks, seasons, opened.Count(o => o.Count > 0) / (double)seasons, opened.Sum(o => o.Count) / (double)seasons,
            opened.SelectMany(o => o).CountBy(by => by).ToDictionary(c => c.Key, c => c.Value));
    }

    /// <summary>
    /// From a day on some tanks of the first lot lose a share of their fish over some days. Named: by that lot, a run in it, or the water
    /// that it came to share, within three weeks.
    /// </summary>
    public static SharedFound Finds(
        SeasonModel model, LimitSet limits, int tanks, int dying, double share, int over, int seasons, int seed)
    {
        var after = new int?[seasons];
        Parallel.For(0, seasons, number =>
        {
            var random = new Random(seed + (dying * 1_000_000) + number);
            var season = new ProgrammeSeason(model, limits, random, tanks);
            var victims = season.OfLot("L0").Take(8).Take(dying).ToHashSet();
            var from = 20 + random.Next(40);
            for (var day = 0; day < from + 21 && after[number] is null; day++)
            {
                foreach (var tank in victims.Where(_ => day >= from && day < from + over))
                {
                    tank.Die((int)Math.Round(model.Fish * share / over));
                }

                var found = season.Live(day).Select(f => (SharedCauseEvidence)f.Evidence);
                after[number] = day >= from && found.Any(e => e is { By: SharedBy.Lot, Code: "L0" } or { By: SharedBy.Run, Code: "R0" })
                    ? day - from
                    : null;
            }
        });
        var days = after.Select(d => d ?? int.MaxValue).Order().ToList();
        int? At(double part) => days[(int)(part * (seasons - 1))] is var d && d < int.MaxValue ? d : null;
        return new SharedFound(
            FormattableString.Invariant($"{dying} of 8, {share:0%} in {over} days"), seasons, after.Count(d => d is not null) / (double)seasons, At(0.5), At(0.9));
    }
}
