using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>That more died than is usual.</summary>
/// <param name="Rising">True for a slow rise that no two days show, false for many at once.</param>
/// <param name="Days">Days over which they died.</param>
/// <param name="Tail">Chance of as many or more if nothing were wrong.</param>
public sealed record LossVerdict(bool Rising, int Dead, int Days, DateOnly LastDay, double Expected, double Tail);

/// <summary>
/// Reads a tank's counts in order, twice over: the dead of two days against all that was counted before, and a cumulative sum that finds the
/// doubling which no two days show. Days round the hatch count as several. The days of a rise are left out of what is usual, or it would get
/// used to itself.
/// </summary>
public sealed class LossChart
{
    /// <summary>Most days that one count may stand for.</summary>
    private const int MostDays = 14;

    /// <summary>What has not crossed in so many days is how the tank is, not a rise (judgement).</summary>
    private const int LongestRise = 28;

    /// <summary>A rise is over when as few die in these days as usual (judgement).</summary>
    private const int CalmDays = 7;

    private readonly IReadOnlyList<LossCount> counts;
    private readonly UsualLoss usual;
    private readonly LimitSet limits;
    private readonly int fishNow;
    private readonly double[] weighedBefore;
    private readonly int[] deathsBefore;

    /// <summary>Counts up to here are what is usual for the tank.</summary>
    private int baseline;

    private double sum;
    private bool rising;

    private LossChart(IReadOnlyList<LossCount> counts, int fishNow, UsualLoss usual, LimitSet limits)
    {
        this.counts = counts;
        this.usual = usual;
        this.limits = limits;
        this.fishNow = fishNow;
        weighedBefore = new double[counts.Count + 1];
        deathsBefore = new int[counts.Count + 1];
        for (var i = 0; i < counts.Count; i++)
        {
            deathsBefore[i + 1] = deathsBefore[i] + counts[i].Dead;
        }

        for (var i = 0; i < counts.Count; i++)
        {
            var fish = Math.Max(1, fishNow + deathsBefore[^1] - deathsBefore[i]);
            weighedBefore[i + 1] = weighedBefore[i] + (fish * usual.Days(counts[i].Day.AddDays(-DaysOf(i)), counts[i].Day));
        }
    }

    /// <summary>What stands after the last count.</summary>
    /// <param name="counts">Ascending, one a day.</param>
    /// <param name="fishNow">Alive after the last.</param>
    public static LossVerdict? Judge(IReadOnlyList<LossCount> counts, int fishNow, UsualLoss usual, LimitSet limits)
    {
        var chart = new LossChart(counts, fishNow, usual, limits);
        LossVerdict? atOnce = null;
        for (var i = 0; i < counts.Count; i++)
        {
            atOnce = chart.ManyAtOnce(i);
            chart.Add(i, atOnce is not null);
        }

        return atOnce ?? chart.Rise();
    }

    /// <summary>What was removed since the count before: after a weekend three days' dead are counted at once.</summary>
    private int DaysOf(int i) =>
        Math.Clamp(counts[i].Day.DayNumber - (i > 0 ? counts[i - 1].Day : usual.DeliveredOn.AddDays(-1)).DayNumber, 1, MostDays);

    private LossVerdict? ManyAtOnce(int i)
    {
        var first = i > 0 && counts[i - 1].Day == counts[i].Day.AddDays(-1) ? i - 1 : i;
        var dead = deathsBefore[i + 1] - deathsBefore[first];
        if (dead < limits[Limits.DieOffFewest])
        {
            return null;
        }

        var (shape, rate) = UsualBefore(first);
        var exposure = Weighed(first, i);
        var expected = shape / rate * exposure;
        if (dead <= expected)
        {
            return null;
        }

        var tail = GammaPoisson.UpperTail(shape, rate, exposure, dead);
        var days = Enumerable.Range(first, i - first + 1).Sum(DaysOf);
        return tail < limits[Limits.DieOffTail] || IsWholeShare(dead, days, first)
            ? new LossVerdict(false, dead, days, counts[i].Day, Math.Round(expected, 2), tail)
            : null;
    }

    /// <summary>So many of the fish that it is a die-off whatever is usual, for a fifth of a tank may die at hatch in a bad lot.</summary>
    private bool IsWholeShare(int dead, int days, int first) =>
        dead >= limits[Limits.DieOffShareOfFish] * Math.Max(days / 2.0, 1) * (fishNow + deathsBefore[^1] - deathsBefore[first]);

    private void Add(int i, bool atOnce)
    {
        if (atOnce || counts[i].Day.DayNumber - usual.DeliveredOn.DayNumber < limits[Limits.RiseAfter])
        {
            Restart(i);
            return;
        }

        var (shape, rate) = UsualBefore(baseline);
        var expected = shape / rate * Weighed(i, i);
        var interval = limits[Limits.RiseInterval];
        var slack = Cusum.CountSlack(expected, limits[Limits.RiseTimes]);
        sum = Math.Min(interval, Cusum.Next(new CusumSums(sum, 0), counts[i].Dead, expected, slack).High);
        rising |= sum >= interval && RunTail(i) < limits[Limits.RiseTail];
        if (rising ? sum < interval && IsCalm(i, shape / rate) : sum == 0 || DaysOfRun(i) > LongestRise)
        {
            Restart(i);
        }
    }

    private void Restart(int i)
    {
        sum = 0;
        rising = false;
        baseline = i + 1;
    }

    private LossVerdict? Rise()
    {
        if (!rising)
        {
            return null;
        }

        var last = counts.Count - 1;
        var (shape, rate) = UsualBefore(baseline);
        var expected = Math.Round(shape / rate * Weighed(baseline, last), 2);
        return new LossVerdict(true, deathsBefore[^1] - deathsBefore[baseline], DaysOfRun(last), counts[last].Day, expected, RunTail(last));
    }

    private int DaysOfRun(int i) => counts[i].Day.DayNumber - counts[baseline].Day.DayNumber + DaysOf(baseline);

    /// <summary>
    /// Chance of the dead since the sum last stood at zero. The sum alone takes what is usual as known; after few counts it is not, and a
    /// tank whose luck has run out looks like a rise.
    /// </summary>
    private double RunTail(int i)
    {
        var (shape, rate) = UsualBefore(baseline);
        return GammaPoisson.UpperTail(shape, rate, Weighed(baseline, i), deathsBefore[i + 1] - deathsBefore[baseline]);
    }

    /// <summary>Deaths a fish and ordinary day as a gamma, from the counts before <paramref name="first"/>.</summary>
    private (double Shape, double Rate) UsualBefore(int first) => usual.After(deathsBefore[first], weighedBefore[first]);

    /// <summary>Fish-days behind the counts from one to another, those round the hatch counted as several.</summary>
    private double Weighed(int first, int last) => weighedBefore[last + 1] - weighedBefore[first];

    private bool IsCalm(int i, double perFishDay)
    {
        var first = i;
        while (first > 0 && counts[first - 1].Day > counts[i].Day.AddDays(-CalmDays))
        {
            first--;
        }

        return deathsBefore[i + 1] - deathsBefore[first] <= perFishDay * Weighed(first, i);
    }
}
