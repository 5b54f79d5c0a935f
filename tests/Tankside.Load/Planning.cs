using System.Diagnostics;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Load;

/// <summary>
/// Set-points planned for every tank of a programme, beside a bare loop that dates swim-up along each of the same number of courses with the
/// forecast itself: one tank of it, taken times the tanks. No database is asked.
/// </summary>
public static class Planning
{
    public static Task<Comparison> MeasureAsync(bool quick)
    {
        var tanks = quick ? 50 : 500;
        var questions = Enumerable.Range(0, tanks).Select(Question).ToList();
        var round = 0;
        return Comparison.RunAsync(
            $"set-points planned for {tanks} tanks, every course of two holds", null, quick ? 3 : 7, Comparison.AsSeconds,
            portal: () => Task.FromResult(new Side(Timed(() => questions.ForEach(q => SetPointPlanner.Plan(q))))),
            bare: () => Task.FromResult(new Side(Timed(() => BareLoop(questions[round++ % tanks])) * tanks)));
    }

    /// <summary>Two holds of fifteen and a change on any of sixty days, each course written out and handed to the forecast.</summary>
    private static void BareLoop(SetPointQuestion q)
    {
        for (var first = 0; first < 14; first++)
        {
            for (var second = 0; second < 14; second++)
            {
                for (var day = 0; day < 60; day++)
                {
                    var course = Enumerable.Repeat(Celsius.FromFahrenheit(40 + first), day).Append(Celsius.FromFahrenheit(40 + second)).ToList();
                    q.SwimUp!.In(course);
                }
            }
        }
    }

    private static SetPointQuestion Question(int i)
    {
        var today = new DateOnly(2027, 1, 18);
        var delivered = today.AddDays(-1 - (i % 10));
        LotProfile lot = new("L1", i % 2 == 0 ? Species.RainbowTrout : Species.ChinookSalmon, delivered.AddDays(-16), delivered.AddDays(-15), 9, delivered, null);
        var setPoint = Celsius.FromFahrenheit(46 + (i % 7)).Degrees;
        var now = TankDevelopment.On(today, lot, [new TankDay { Day = delivered, MeanC = setPoint }], setPoint);
        return new SetPointQuestion
        {
            Today = today,
            FirstTurn = today,
            SetPointC = setPoint,
            Dial = TemperatureUnit.F,
            Hatch = now.Hatch?.Outlook,
            SwimUp = now.SwimUp?.Outlook,
            Calendar = new SchoolCalendar(ProgrammeClock.Of("America/Denver"), new(8, 0), new(15, 15), [(today.AddDays(30 + (i % 20)), today.AddDays(38 + (i % 20)))]),
            Rules = new SetPointRules(4.4, 12.2, 0.56, 3, 10, 3, 0.05),
            Goal = SetPointGoal.ClearOfClosedDays,
        };
    }

    private static double Timed(Action work)
    {
        var watch = Stopwatch.StartNew();
        work();
        return watch.Elapsed.TotalSeconds;
    }
}
