using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Readings.SetPoints;

/// <summary>
/// What the planner looks for, looked for the slow way: every course is written out day by day and handed to the forecast. Nothing here is
/// the planner's.
/// </summary>
internal sealed class PlainSearch(SetPointQuestion q)
{
    private const int Far = 400;

    private readonly List<double> scale = q.Dial == TemperatureUnit.F
        ? [.. Enumerable.Range(20, 70).Select(f => (f - 32) / 1.8)]
        : [.. Enumerable.Range(-10, 60).Select(h => h / 2.0)];

    public sealed record Found(int Miss, double Risk, int Turns, double Distance);

    public Found Best()
    {
        var all = Courses().Select(Weigh).ToList();
        var miss = all.Min(c => c.Miss);
        all = [.. all.Where(c => c.Miss == miss)];
        var risk = all.Min(c => c.Risk);
        return all.Where(c => c.Risk <= risk + q.Rules.Alike).OrderBy(c => c.Turns).ThenBy(c => Math.Round(c.Distance, 6)).ThenBy(c => c.Risk).First();
    }

    private double Now => scale.Where(c => Math.Abs(c - q.SetPointC) < 0.006).DefaultIfEmpty(q.SetPointC).First();

    private bool InBand(double c) => c > q.Rules.LowC - 1e-9 && c < q.Rules.HighC + 1e-9;

    private IEnumerable<(List<double> Days, double[] Holds)> Courses()
    {
        var holds = scale.Where(InBand).ToList();
        foreach (var first in InBand(Now) ? holds.Prepend(Now).Distinct() : holds)
        {
            var one = new List<double>();
            var arrived = Turn(one, Now, first, 0);
            yield return (OneAtLeast(one), [first]);
            for (var day = arrived; day <= Until(OneAtLeast(one)); day++)
            {
                foreach (var second in holds.Where(h => h != first && MayTurn(day)))
                {
                    var two = one.Take(day).ToList();
                    while (two.Count < day)
                    {
                        two.Add(first);
                    }

                    Turn(two, first, second, day);
                    yield return (two, [first, second]);
                }
            }
        }
    }

    private double Until(List<double> days) => Ahead(q.SwimUp ?? q.Hatch, days).Ahead ?? Far - 1;

    private bool MayTurn(int day) => q.Today.AddDays(day) >= q.FirstTurn && q.Calendar.IsSchoolDay(q.Today.AddDays(day));

    /// <summary>Adds the days of turning; answers the day after the last of them.</summary>
    private int Turn(List<double> days, double from, double to, int day)
    {
        for (var c = from; c != to; day++)
        {
            if (MayTurn(day))
            {
                var last = c;
                var reach = scale.Where(x => Math.Abs(x - last) <= q.Rules.LargestStepC + 1e-9 && (to > last ? x > last && x <= to : x < last && x >= to));
                c = to > last ? reach.Max() : reach.Min();
            }

            days.Add(c);
        }

        return day;
    }

    private List<double> OneAtLeast(List<double> days) => days.Count > 0 ? days : [Now];

    private static (double? Ahead, double Sd) Ahead(Hatchery.Readings.StageOutlook? outlook, List<double> days)
    {
        if (outlook is null)
        {
            return (null, 0);
        }

        var forecast = outlook.In([.. days.Select(c => new Celsius(c))]).Forecast;
        return forecast.DaysAhead < Far ? (forecast.DaysAhead, forecast.SdDays) : (null, 0);
    }

    private Found Weigh((List<double> Days, double[] Holds) course)
    {
        var (hatch, swims) = (Ahead(q.Hatch, course.Days), Ahead(q.SwimUp, course.Days));
        var turns = course.Days.Prepend(Now).Zip(course.Days).Count(p => p.First != p.Second);
        var miss = q.Goal switch
        {
            SetPointGoal.ClearOfClosedDays => (q.Hatch is not null && (hatch.Ahead is not { } h || IsInBreak((int)h)) ? 1 : 0)
                + (q.SwimUp is not null && (swims.Ahead is not { } s || IsBad((int)s)) ? 2 : 0),
            SetPointGoal.HatchOn => hatch.Ahead is { } h ? Math.Abs(q.Today.AddDays((int)h).DayNumber - q.GoalDay!.Value.DayNumber) : 10_000,
            SetPointGoal.SwimUpBy => swims.Ahead is { } s ? Math.Max(0, q.Today.AddDays((int)s).DayNumber - q.GoalDay!.Value.DayNumber) : 10_000,
        };
        var risk = Chance(hatch, IsClosed, q.NoneHatchedOn) + (q.Rules.SwimUpWeight * Chance(swims, IsBad, q.NoneSwimmingOn));
        return new Found(miss, risk, turns, course.Holds.Max(c => Math.Abs(c - Now)));
    }

    private double Chance((double? Ahead, double Sd) date, Func<int, bool> isTrouble, DateOnly? none)
    {
        if (date.Ahead is not { } mid)
        {
            return 0;
        }

        var (sd, first) = (Math.Max(0.5, date.Sd), none is { } day ? day.DayNumber + 1 - q.Today.DayNumber : int.MinValue);
        double Until(double x) => Normal.Cdf((x - mid) / sd);
        var gone = first == int.MinValue ? 0 : Until(first);
        return Enumerable.Range(0, Far).Where(i => i >= first && isTrouble(i)).Sum(i => Until(i + 1) - Until(i)) / (1 - gone);
    }

    private bool IsInBreak(int day)
    {
        var on = q.Today.AddDays(day);
        return q.Calendar.ClosedRuns(on.AddDays(-30), on.AddDays(30))
            .Any(r => r.First <= on && on <= r.Last && r.Last.DayNumber - r.First.DayNumber + 1 >= q.Rules.BreakDays);
    }

    private bool IsClosed(int day) => !q.Calendar.IsSchoolDay(q.Today.AddDays(day));

    /// <summary>After the release or the day asked for, in a break, or with fewer than the needed school days before one.</summary>
    private bool IsBad(int day)
    {
        var on = q.Today.AddDays(day);
        if (on > q.ReleaseOn || (q.Goal == SetPointGoal.SwimUpBy && on > q.GoalDay))
        {
            return true;
        }

        for (var (next, school) = (on, 0); school < q.Rules.SchoolDaysBefore; next = next.AddDays(1))
        {
            if (q.Calendar.IsSchoolDay(next))
            {
                school += next > on ? 1 : 0;
                continue;
            }

            var run = q.Calendar.ClosedRuns(next.AddDays(-30), next.AddDays(30)).Single(r => r.First <= next && next <= r.Last);
            if (run.Last.DayNumber - run.First.DayNumber + 1 >= q.Rules.BreakDays)
            {
                return true;
            }
        }

        return false;
    }
}
