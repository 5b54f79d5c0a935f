using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Looks for what tanks in trouble have in common. Pure. Each lot, run, area, water and chiller batch is asked; the answers count for what
/// they are worth among so many questions; and tanks that one cause explains are not explained twice.
/// </summary>
public static class SharedCauses
{
    /// <summary>What stands behind the same deaths, and what behind the same stand-still: inside a family one cause explains the other away.</summary>
    private static readonly SharedBy[][] Families =
        [[SharedBy.Lot, SharedBy.Run, SharedBy.Water], [SharedBy.Area, SharedBy.ChillerBatch]];

    /// <summary>Findings, the strongest first.</summary>
    public static IReadOnlyList<Finding> Find(IReadOnlyList<SharedCauseTank> tanks, LimitSet limits)
    {
        var stocked = tanks.Where(t => t.Fish > 0 || t.Dead > 0).ToList();
        var groups = GroupsOf(stocked);
        var questions = new Lazy<int>(() => groups.Where((g, i) => !groups.Take(i).Any(g.HasSameTanks)).Count());
        var found = new List<(Crowd Crowd, List<SharedGroup> Also)>();
        foreach (var family in Families)
        {
            Explain([.. groups.Where(g => family.Contains(g.By))], family, stocked, questions, limits, found);
        }

        return [.. OneOfEach(found).Select(f => Finding(f.Crowd, f.Also, limits))];
    }

    private static List<SharedGroup> GroupsOf(List<SharedCauseTank> tanks) =>
        [.. Enum.GetValues<SharedBy>().SelectMany(by => tanks
            .Where(t => !string.IsNullOrEmpty(t.CodeOf(by)))
            .GroupBy(t => t.CodeOf(by)!, StringComparer.Ordinal)
            .OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new SharedGroup(by, g.Key, [.. g]))
            .Where(g => g.Tanks.Count > 2))];

    /// <summary>The strongest first; its tanks are then set aside, and what no longer stands without them was the same trouble.</summary>
    private static void Explain(
        List<SharedGroup> groups, SharedBy[] family, List<SharedCauseTank> tanks, Lazy<int> questions, LimitSet limits,
        List<(Crowd Crowd, List<SharedGroup> Also)> found)
    {
        var left = family.ToDictionary(by => by, by => ChancesOf(by, tanks, limits));
        var passing = Passing(groups, left, questions, limits);
        while (passing.Count > 0)
        {
            var best = passing[0];
            groups.Remove(best.Group);
            foreach (var chances in left.Values)
            {
                best.Tanks.ToList().ForEach(t => chances.Remove(t));
            }

            var still = Passing(groups, left, questions, limits);
            var also = passing.Skip(1).Select(c => c.Group).Where(g => still.All(c => c.Group != g)).ToList();
            found.Add((best, also));
            passing = still;
        }
    }

    private static List<Crowd> Passing(
        List<SharedGroup> groups, Dictionary<SharedBy, Dictionary<SharedCauseTank, double>> chances, Lazy<int> questions, LimitSet limits)
    {
        var crowds = groups.Select(g => g.Strongest(chances[g.By], limits)).OfType<Crowd>().ToList();
        if (crowds.Count == 0)
        {
            return [];
        }

        // The groups in which nothing is crowded are questions asked too.
        var quiet = Enumerable.Repeat(1.0, Math.Max(0, questions.Value - crowds.Count));
        var worth = FalseDiscovery.Adjust([.. crowds.Select(c => c.Tail), .. quiet]);
        return [.. crowds.Where((_, i) => worth[i] <= limits[Limits.SharedTail])
            .OrderBy(c => c.Tail).ThenBy(c => c.Group.By).ThenBy(c => c.Group.Code, StringComparer.Ordinal)];
    }

    private static Dictionary<SharedCauseTank, double> ChancesOf(SharedBy by, List<SharedCauseTank> tanks, LimitSet limits)
    {
        // Power goes off everywhere at once; a trouble that began long before another is not of the same hour.
        var newest = by != SharedBy.Area ? default
            : tanks.SelectMany(t => SharedSigns.Of(by, t)).Select(t => t.Since).DefaultIfEmpty().Max();
        var from = newest == default ? default : newest.AddHours(-limits[Limits.SharedNear]);
        return tanks.ToDictionary(t => t, t => SharedSigns.Chance(by, t, from, limits));
    }

    /// <summary>Between families: where most of a weaker cause's tanks are a stronger one's, it is named beside it only.</summary>
    private static List<(Crowd Crowd, List<SharedGroup> Also)> OneOfEach(List<(Crowd Crowd, List<SharedGroup> Also)> found)
    {
        var kept = new List<(Crowd Crowd, List<SharedGroup> Also)>();
        foreach (var candidate in found.OrderBy(f => f.Crowd.Tail).ThenBy(f => f.Crowd.Group.By))
        {
            var same = kept.FirstOrDefault(k =>
                2 * candidate.Crowd.Tanks.Count(k.Crowd.Tanks.Contains) > Math.Max(candidate.Crowd.Tanks.Count, k.Crowd.Tanks.Count));
            if (same.Also is null)
            {
                kept.Add(candidate);
            }
            else
            {
                same.Also.Add(candidate.Crowd.Group);
            }
        }

        return kept;
    }

    private static Finding Finding(Crowd crowd, List<SharedGroup> also, LimitSet limits)
    {
        var by = crowd.Group.By;
        var signs = crowd.Tanks.SelectMany(t => SharedSigns.Of(by, t)).ToList();
        var counted = crowd.Tanks.Select(t => t.CountedAt).OfType<DateTime>();
        var standsOn = signs.Select(s => s.Finding.StandsOn).Concat(counted).DefaultIfEmpty().Max();
        var since = signs.Select(s => s.Since).DefaultIfEmpty(standsOn).Min();
        var others = crowd.Group.Tanks.Where(t => !crowd.Tanks.Contains(t)).ToList();
        var evidence = new SharedCauseEvidence(
            crowd.Tanks[0].Stage, by, crowd.Group.Code,
            [.. crowd.Tanks.OrderBy(t => t.Code, StringComparer.Ordinal).Select(t => new SharedTank(
                t.Code, SharedSigns.Leading(by, t), t.Dead, Math.Round(t.Expected, 1), t.Fish))],
            [.. others.Select(t => t.Code).Order(StringComparer.Ordinal)],
            others.Sum(t => t.Fish), since, crowd.Tail, crowd.Fisher,
            [.. also.Select(g => new SharedWith(g.By, g.Code))]);
        var urgency = signs.Select(s => s.Finding.Urgency).DefaultIfEmpty().Max();
        return new Finding(
            FlagKind.SharedCause, urgency < Urgency.Today ? Urgency.Today : urgency, standsOn, evidence,
            Hazard.Around(standsOn, limits[Limits.Losses.SharedHours], limits[Limits.Losses.SharedShare]));
    }
}
