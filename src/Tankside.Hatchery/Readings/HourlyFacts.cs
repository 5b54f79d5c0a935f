namespace Tankside.Hatchery.Readings;

/// <summary>
/// What the rules look back on of readings that a logger takes again and again: of an hour the last that says the same things, and those
/// that lie well off it. What people saw is kept whole, so judging costs the same whether a logger reads each minute or each hour.
/// </summary>
public static class HourlyFacts
{
    /// <summary>°C. More than a thermometer errs by: what lies so far off the hour's last is news of its own (judgement).</summary>
    private const double Tells = 0.5;

    /// <summary>A reading that took longer to arrive tells of the past, and must not stand for one that was known in time (judgement).</summary>
    private static readonly TimeSpan Late = TimeSpan.FromHours(1);

    /// <summary>What makes two readings of an hour interchangeable: they say the same things, came by the same door, and as promptly.</summary>
    private readonly record struct Sort(long Hour, bool Water, bool Room, bool? Chiller, bool ByClass, bool Late);

    /// <summary>The facts worth keeping of some, in the order of their times.</summary>
    /// <param name="facts">Readings that count, ascending by time.</param>
    public static IReadOnlyList<ReadingFact> Of(IReadOnlyList<ReadingFact> facts)
    {
        if (IsSparse(facts))
        {
            return facts;
        }

        var kept = new bool[facts.Count];
        var last = new Dictionary<Sort, (int Last, int Coolest, int Warmest)>();
        for (var i = 0; i < facts.Count; i++)
        {
            if (!facts[i].Seen.IsOfLogger)
            {
                kept[i] = true;
                continue;
            }

            var sort = SortOf(facts[i]);
            var (_, coolest, warmest) = last.GetValueOrDefault(sort, (i, i, i));
            last[sort] = (i, C(facts[i]) <= C(facts[coolest]) ? i : coolest, C(facts[i]) >= C(facts[warmest]) ? i : warmest);
        }

        foreach (var (newest, coolest, warmest) in last.Values)
        {
            kept[newest] = true;
            kept[coolest] |= C(facts[newest]) - C(facts[coolest]) >= Tells;
            kept[warmest] |= C(facts[warmest]) - C(facts[newest]) >= Tells;
        }

        return [.. facts.Where((_, i) => kept[i])];
    }

    /// <summary>True when no two of them lie within an hour: then each is kept, and nothing has to be looked up.</summary>
    private static bool IsSparse(IReadOnlyList<ReadingFact> facts)
    {
        for (var i = 1; i < facts.Count; i++)
        {
            if (HourOf(facts[i].At) == HourOf(facts[i - 1].At))
            {
                return false;
            }
        }

        return true;
    }

    private static Sort SortOf(ReadingFact fact) => new(
        HourOf(fact.At), fact.Seen.WaterC is not null, fact.Seen.RoomC is not null, fact.Seen.ChillerRunning, fact.ByClass,
        fact.ReceivedAt - fact.At > Late);

    private static long HourOf(DateTime at) => at.Ticks / TimeSpan.TicksPerHour;

    private static double C(ReadingFact fact) => fact.Seen.WaterC ?? 0;
}
