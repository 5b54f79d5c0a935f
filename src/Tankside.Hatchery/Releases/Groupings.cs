namespace Tankside.Hatchery.Releases;

/// <summary>By what the season's account is told apart.</summary>
public enum Grouping
{
    School,
    Lot,
    Species,
    Site,
    Permit,
    Tank,
}

/// <summary>Tanks that belong together. Every tank is in one group of a kind, so that the groups add up to the season.</summary>
public sealed record TankGroup(string Name, IReadOnlyList<TankTotals> Tanks)
{
    public TankBalance Balance { get; } = TankBalance.SumOf(Tanks.Select(t => t.Balance));

    public PooledSurvival Pooled { get; } = PooledSurvival.Over([.. Tanks.Select(t => t.Balance)]);
}

/// <summary>
/// Releases that belong together. One tank's fish may go to two sites, so what died stands with no site: of sites and permits only what was
/// released is told.
/// </summary>
/// <param name="Water">Of the site, or of the permit.</param>
/// <param name="Allowed">Fish that the permit allows; null for a site.</param>
/// <param name="ReleasedEver">Fish released under the permit in all seasons; null for a site.</param>
public sealed record ReleaseGroup(string Name, string Water, IReadOnlyList<ReleaseTotals> Releases, int? Allowed = null, int? ReleasedEver = null)
{
    public int Fish { get; } = Releases.Sum(r => r.Fish);

    public int Tanks { get; } = Releases.Select(r => r.Tank).Distinct().Count();

    public DateOnly? First => Releases.Count == 0 ? null : Releases.Min(r => r.Day);

    public DateOnly? Last => Releases.Count == 0 ? null : Releases.Max(r => r.Day);
}

/// <summary>The account told apart by school, lot, species, site and permit, and by rooms whose fish were together.</summary>
public static class Groupings
{
    public static IReadOnlyList<TankGroup> Tanks(SeasonTotals totals, Grouping by)
    {
        Func<TankTotals, string> name = by switch
        {
            Grouping.School => t => t.School,
            Grouping.Lot => t => t.Lot,
            Grouping.Species => t => t.Species,
            Grouping.Tank => t => t.Tank,
            Grouping.Site or Grouping.Permit => throw new ArgumentOutOfRangeException(nameof(by), by, "sites and permits group releases"),
        };
        return [.. totals.Tanks.GroupBy(name).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new TankGroup(g.Key, [.. g]))];
    }

    public static IReadOnlyList<ReleaseGroup> Sites(SeasonTotals totals) =>
        [.. totals.Releases.GroupBy(r => (r.Site, r.Water)).OrderBy(g => g.Key.Site, StringComparer.Ordinal).Select(g => new ReleaseGroup(g.Key.Site, g.Key.Water, [.. g]))];

    /// <summary>Permits that were used in the season or could have been; an unused one is a nil report.</summary>
    public static IReadOnlyList<ReleaseGroup> Permits(SeasonTotals totals)
    {
        var used = totals.Releases.ToLookup(r => r.Permit);
        return [.. totals.Permits.OrderBy(p => p.Number, StringComparer.Ordinal)
            .Select(p => new ReleaseGroup(p.Number, p.Water, [.. used[p.Number]], p.Allowed, p.ReleasedEver))];
    }

    /// <summary>
    /// Rooms whose fish were together at some time, for a holiday or for good. Nobody can tell whose fish died or were released after that,
    /// so such rooms have one survival: the sum of what they released out of the sum of what came to them.
    /// </summary>
    public static IReadOnlyList<TankGroup> Pools(SeasonTotals totals)
    {
        var leaders = totals.Tanks.ToDictionary(t => t.Tank, t => t.Tank);
        foreach (var move in totals.Moves.Where(m => m.Count > 0 && leaders.ContainsKey(m.From) && leaders.ContainsKey(m.To)))
        {
            var (one, other) = (Leader(move.From), Leader(move.To));
            leaders[string.CompareOrdinal(one, other) < 0 ? other : one] = string.CompareOrdinal(one, other) < 0 ? one : other;
        }

        return [.. totals.Tanks.GroupBy(t => Leader(t.Tank)).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new TankGroup(string.Join(" + ", g.Select(t => t.Tank)), [.. g]))];

        string Leader(string tank)
        {
            while (leaders[tank] != tank)
            {
                tank = leaders[tank];
            }

            return tank;
        }
    }
}
