using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>
/// The days of a plan, counted from today: on which the dial can be turned, on which hatch, and on which swim-up, makes trouble.
/// </summary>
internal sealed class TroubleDays
{
    /// <summary>How far a plan looks, days: longer than any brood takes at the cold end of the band.</summary>
    public const int Horizon = 400;

    /// <summary>How far round the horizon breaks and the school days before them are looked for.</summary>
    private const int Around = 60;

    /// <summary>A day is the finest that anybody sees.</summary>
    private const double LeastSd = 0.5;

    private readonly bool[] closed = new bool[Horizon + 1], inBreak = new bool[Horizon + 1], badForSwimUp = new bool[Horizon + 1];

    private readonly List<(double From, double To)> closedRuns, badRuns;

    private readonly double noneHatchedUntil, noneSwimUntil;

    public TroubleDays(SetPointQuestion q)
    {
        for (var i = 0; i <= Horizon; i++)
        {
            var day = q.Today.AddDays(i);
            closed[i] = !q.Calendar.IsSchoolDay(day);
            badForSwimUp[i] = q.ReleaseOn < day || (q.Goal == SetPointGoal.SwimUpBy && q.GoalDay < day);
        }

        foreach (var (first, last) in q.Calendar.ClosedRuns(q.Today.AddDays(-Around), q.Today.AddDays(Horizon + Around))
            .Where(r => r.Last.DayNumber - r.First.DayNumber + 1 >= q.Rules.BreakDays))
        {
            var from = FirstNeeded(q.Calendar, first, q.Rules.SchoolDaysBefore);
            for (var i = Math.Max(0, from.DayNumber - q.Today.DayNumber); i <= Math.Min(Horizon, last.DayNumber - q.Today.DayNumber); i++)
            {
                badForSwimUp[i] = true;
                inBreak[i] = q.Today.AddDays(i) >= first;
            }
        }

        Turns = [.. Enumerable.Range(0, Horizon).Where(i => !closed[i] && q.Today.AddDays(i) >= q.FirstTurn)];
        (closedRuns, badRuns) = (Runs(closed), Runs(badForSwimUp));
        noneHatchedUntil = After(q.NoneHatchedOn, q.Today);
        noneSwimUntil = After(q.NoneSwimmingOn, q.Today);
    }

    /// <summary>The days on which somebody is there to turn the dial, ascending.</summary>
    public int[] Turns { get; }

    public bool IsInBreak(double ahead) => ahead < inBreak.Length && inBreak[(int)ahead];

    public bool IsBadForSwimUp(double ahead) => ahead < badForSwimUp.Length ? badForSwimUp[(int)ahead] : badForSwimUp[^1];

    public double HatchOnClosedDay(StageDate date) => Chance(date, closedRuns, noneHatchedUntil);

    public double SwimUpInBadTime(StageDate date) => Chance(date, badRuns, noneSwimUntil);

    /// <summary>The part of the date's distribution in these days; given that it had not come by then, of what comes after.</summary>
    private static double Chance(StageDate date, List<(double From, double To)> runs, double notYet)
    {
        var sd = Math.Max(date.SdDays, LeastSd);
        var gone = NormalTable.Cdf((notYet - date.Ahead) / sd);
        if (gone > 0.999)
        {
            return runs.Any(r => r.From <= notYet && notYet < r.To) ? 1 : 0;
        }

        var (near, far) = (date.Ahead - (8 * sd), date.Ahead + (8 * sd));
        var sum = 0.0;
        foreach (var (from, to) in runs)
        {
            if (to <= near || to <= notYet)
            {
                continue;
            }

            if (from >= far)
            {
                break;
            }

            sum += NormalTable.Cdf((to - date.Ahead) / sd) - NormalTable.Cdf((Math.Max(from, notYet) - date.Ahead) / sd);
        }

        return sum / (1 - gone);
    }

    private static DateOnly FirstNeeded(SchoolCalendar calendar, DateOnly firstClosed, int schoolDays)
    {
        var day = firstClosed;
        for (var (needed, back) = (schoolDays, 0); needed > 0 && back < Around; back++)
        {
            day = day.AddDays(-1);
            needed -= calendar.IsSchoolDay(day) ? 1 : 0;
        }

        return day;
    }

    /// <summary>Runs of marked days as stretches of time; one that reaches the horizon goes on.</summary>
    private static List<(double From, double To)> Runs(bool[] marked)
    {
        var runs = new List<(double From, double To)>();
        for (var i = 0; i < marked.Length; i++)
        {
            if (!marked[i])
            {
                continue;
            }

            var from = i;
            while (i < marked.Length && marked[i])
            {
                i++;
            }

            runs.Add((from, i == marked.Length ? double.PositiveInfinity : i));
        }

        return runs;
    }

    private static double After(DateOnly? none, DateOnly today) => none is { } day ? day.DayNumber + 1 - today.DayNumber : double.NegativeInfinity;
}
