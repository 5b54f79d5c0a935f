using Tankside.Science.Units;

namespace Tankside.Hatchery.Kit;

/// <summary>Where help may be needed, and how much hangs on it.</summary>
/// <param name="Weight">Fish at risk there, 0 or more.</param>
public sealed record SpareDemand(Guid Id, GeoPoint At, double Weight);

/// <summary>Where spares may lie.</summary>
public sealed record SpareSite(Guid Id, GeoPoint At);

/// <summary>Which sites hold spares, and how long the drives then are.</summary>
/// <param name="Sites">Indices of the chosen sites, rising.</param>
/// <param name="Cost">Weight times minutes to the nearest chosen site, over all demand.</param>
/// <param name="MeanMinutes">The same for each unit of weight.</param>
/// <param name="FarthestMinutes">Longest drive from a chosen site to any demand.</param>
public sealed record SparePlacing(IReadOnlyList<int> Sites, double Cost, double MeanMinutes, double FarthestMinutes);

/// <summary>
/// Where so many spares should lie, so that the drives to where they may be needed are short, weighted by the fish: the p-median of the drive
/// times (Hakimi 1964, from memory). Few enough choices are all tried; beyond that sites are exchanged one by one from several beginnings
/// until nothing gets better (Teitz and Bart 1968, from memory), which is not proved to be best.
/// </summary>
public static class SparePlaces
{
    /// <summary>More ways to choose than this are not all tried. A full search of so many takes well under a second for a hundred tanks.</summary>
    public const long MostTried = 20_000;

    public static SparePlacing? Choose(IReadOnlyList<SpareDemand> demand, IReadOnlyList<SpareSite> sites, int number, Driving driving)
    {
        if (sites.Count == 0 || demand.Count == 0 || number < 1)
        {
            return null;
        }

        var costs = Costs(demand, sites, driving);
        var open = Math.Min(number, sites.Count);
        var chosen = Ways(sites.Count, open) <= MostTried ? EveryChoice(costs, open) : Interchange(costs, open);
        return Told(demand, sites, chosen, driving);
    }

    /// <summary>
    /// How many spares to each of the chosen sites: one each, and every further one to the site with most weight for each spare it would then
    /// have (D'Hondt). Fewer spares than sites leave the last ones without.
    /// </summary>
    public static int[] Shares(IReadOnlyList<double> weights, int number)
    {
        var shares = new int[weights.Count];
        for (var left = number; left > 0 && shares.Length > 0; left--)
        {
            var to = Enumerable.Range(0, shares.Length).MaxBy(i => (shares[i] == 0 ? 1 : 0, weights[i] / (shares[i] + 1)));
            shares[to]++;
        }

        return shares;
    }

    /// <summary>Tries every choice. Cost by demand and site.</summary>
    public static int[] EveryChoice(double[,] costs, int number)
    {
        var sites = costs.GetLength(1);
        int[] now = [.. Enumerable.Range(0, number)];
        int[] best = [.. now];
        var least = Total(costs, now);
        while (Next(now, sites))
        {
            var total = Total(costs, now);
            if (total < least)
            {
                (least, best) = (total, [.. now]);
            }
        }

        return best;
    }

    /// <summary>Exchanges a chosen site for another as long as that helps, beginning once from each site, and keeps the best end.</summary>
    public static int[] Interchange(double[,] costs, int number)
    {
        int[]? best = null;
        var least = double.PositiveInfinity;
        for (var first = 0; first < costs.GetLength(1); first++)
        {
            var chosen = Exchanged(costs, Greedy(costs, number, first));
            var total = Total(costs, chosen);
            if (total < least)
            {
                (least, best) = (total, chosen);
            }
        }

        Array.Sort(best!);
        return best!;
    }

    /// <summary>Every demand's cost to the nearest of the chosen sites, summed.</summary>
    public static double Total(double[,] costs, IReadOnlyList<int> chosen)
    {
        var total = 0.0;
        for (var d = 0; d < costs.GetLength(0); d++)
        {
            var nearest = double.PositiveInfinity;
            foreach (var site in chosen)
            {
                nearest = Math.Min(nearest, costs[d, site]);
            }

            total += nearest;
        }

        return total;
    }

    private static double[,] Costs(IReadOnlyList<SpareDemand> demand, IReadOnlyList<SpareSite> sites, Driving driving)
    {
        var costs = new double[demand.Count, sites.Count];
        foreach (var (d, place) in demand.Index())
        {
            foreach (var (s, site) in sites.Index())
            {
                costs[d, s] = place.Weight * driving.Minutes(site.At, place.At);
            }
        }

        return costs;
    }

    private static int[] Greedy(double[,] costs, int number, int first)
    {
        List<int> chosen = [first];
        while (chosen.Count < number)
        {
            chosen.Add(Enumerable.Range(0, costs.GetLength(1)).Except(chosen).MinBy(s => Total(costs, [.. chosen, s])));
        }

        return [.. chosen];
    }

    private static int[] Exchanged(double[,] costs, int[] chosen)
    {
        var total = Total(costs, chosen);
        for (var better = true; better;)
        {
            better = false;
            for (var place = 0; place < chosen.Length; place++)
            {
                foreach (var site in Enumerable.Range(0, costs.GetLength(1)).Except(chosen).ToList())
                {
                    var was = chosen[place];
                    chosen[place] = site;
                    var tried = Total(costs, chosen);
                    if (tried < total)
                    {
                        (total, better) = (tried, true);
                    }
                    else
                    {
                        chosen[place] = was;
                    }
                }
            }
        }

        return chosen;
    }

    /// <summary>The next choice in the order of its indices; false after the last.</summary>
    private static bool Next(int[] choice, int of)
    {
        for (var i = choice.Length - 1; i >= 0; i--)
        {
            if (choice[i] < of - choice.Length + i)
            {
                choice[i]++;
                for (var j = i + 1; j < choice.Length; j++)
                {
                    choice[j] = choice[j - 1] + 1;
                }

                return true;
            }
        }

        return false;
    }

    /// <summary>Ways to choose, or more than any limit.</summary>
    private static double Ways(int of, int number)
    {
        var ways = 1.0;
        for (var i = 1; i <= number; i++)
        {
            ways = ways * (of - number + i) / i;
        }

        return ways;
    }

    private static SparePlacing Told(IReadOnlyList<SpareDemand> demand, IReadOnlyList<SpareSite> sites, int[] chosen, Driving driving)
    {
        var minutes = demand.Select(d => (d.Weight, Minutes: chosen.Min(s => driving.Minutes(sites[s].At, d.At)))).ToList();
        var (cost, weight) = (minutes.Sum(m => m.Weight * m.Minutes), minutes.Sum(m => m.Weight));
        return new SparePlacing(chosen, cost, weight > 0 ? cost / weight : minutes.Average(m => m.Minutes), minutes.Max(m => m.Minutes));
    }
}
