using Tankside.Hatchery.Flags.Rules;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>Reads the course of the water from a tank's last days of temperatures.</summary>
internal sealed class WaterCourses
{
    private readonly Situation s;
    private readonly List<ReadingFact> water;

    private WaterCourses(Situation s, DateTime newest)
    {
        this.s = s;
        var from = newest.AddDays(-s.Limits[Limits.Faults.Days]);
        water = [.. s.Record.Recent.Where(r => r.Seen.WaterC is not null && r.At >= from)];
    }

    public static WaterCourse Of(Situation s) => s.Water is { } newest ? new WaterCourses(s, newest.At).Read() : WaterCourse.Unknown;

    private double Last => C(water[^1]);

    private double SetPoint => s.Tank.SetPointC;

    private double Near => s.Limits[Limits.WarmingAbove];

    private double Below => s.Limits[Limits.Faults.Below];

    private double Step => s.Limits[Limits.WarmingStep];

    private double Sudden => s.Limits[Limits.Faults.Sudden];

    private WaterCourse Read() => JumpedAtChange() ? WaterCourse.JumpAtChange
        : StuckRules.NeverChanges(s) is not null ? WaterCourse.NeverChanges
        : DroppedThenRose() ? WaterCourse.DropThenRise
        : Last < s.Limits[Limits.IceBelow] && SetPoint > s.Limits[Limits.IceSetPointAbove] ? WaterCourse.FarBelow
        : FellSuddenly() ? WaterCourse.SuddenDrop
        : PeaksByDay() ? WaterCourse.DayPeaks
        : Steady() is { } steady ? steady
        : Rises() ? WaterCourse.Rising
        : ComesBack() ? WaterCourse.ComingBack
        : DropsSlowly(water.Count - 1) && !RoseAtLast ? WaterCourse.SlowDrop
        : Last >= SetPoint + Near ? WaterCourse.Warm
        : Last <= SetPoint - Near ? WaterCourse.Cool
        : WaterCourse.AtSetPoint;

    /// <summary>Between the last two temperatures, or a few hours before, somebody changed water.</summary>
    private bool JumpedAtChange()
    {
        if (water.Count < 2 || Math.Abs(Last - C(water[^2])) < Step)
        {
            return false;
        }

        var (from, to) = (water[^2].At.AddHours(-3), water[^1].At);
        return s.Told.Any(r => r.Seen.WaterChangedPercent > 0 && r.At >= from && r.At <= to);
    }

    private bool DroppedThenRose()
    {
        var lowest = water.Select(C).ToList() is var all ? all.LastIndexOf(all.Min()) : 0;
        return lowest < water.Count - 1 && DropsSlowly(lowest) && Last >= C(water[lowest]) + Step && Last > C(water[^2]);
    }

    /// <summary>Under the set point at <paramref name="to"/>, come there over a day or more in steps that a chiller could make.</summary>
    private bool DropsSlowly(int to)
    {
        var from = to;
        while (from > 0 && C(water[from]) <= SetPoint - Below)
        {
            from--;
        }

        return C(water[to]) <= SetPoint - Below
            && C(water[from]) > SetPoint - Below
            && water[to].At - water[from].At >= TimeSpan.FromHours(20)
            && Enumerable.Range(from + 1, to - from).All(i => C(water[i - 1]) - C(water[i]) < Sudden);
    }

    private bool RoseAtLast => water.Count > 1 && Last > C(water[^2]) + 0.1;

    private bool FellSuddenly() =>
        water.Count > 1 && C(water[^2]) - Last >= Sudden && water[^1].At - water[^2].At <= TimeSpan.FromHours(36) && Last < SetPoint;

    /// <summary>Two days or more that were warm after noon and cool again the next morning; a rise far beyond them is something else.</summary>
    private bool PeaksByDay()
    {
        var clock = s.Record.Calendar.Clock;
        var days = water.GroupBy(r => clock.Day(r.At)).OrderBy(g => g.Key).Select(g => (
            Morning: g.Where(r => clock.Local(r.At).Hour < 11).Select(C).DefaultIfEmpty(double.NaN).Min(),
            Afternoon: g.Where(r => clock.Local(r.At).Hour >= 12).Select(C).DefaultIfEmpty(double.NaN).Max())).ToList();
        var peak = s.Limits[Limits.Faults.Peak];
        var peaks = days.Zip(days.Skip(1))
            .Where(d => d.First.Afternoon - d.First.Morning >= peak && d.Second.Morning <= d.First.Afternoon - (peak / 2))
            .Select(d => d.First.Afternoon).ToList();
        return peaks.Count >= 2 && Last <= peaks.Max() + Near;
    }

    private WaterCourse? Steady()
    {
        var run = water.Count - 1;
        while (run > 0 && Math.Abs(C(water[run - 1]) - Last) <= s.Limits[Limits.Faults.Steady])
        {
            run--;
        }

        var lasts = water.Count - run >= 3 && water[^1].At - water[run].At >= TimeSpan.FromHours(20);
        if (!lasts || Math.Abs(Last - SetPoint) < s.Limits[Limits.Faults.SteadyOff] || Math.Abs(Last - s.RoomC) < s.Limits[Limits.Faults.SteadyOff])
        {
            return null;
        }

        return run > 0 && Math.Abs(C(water[run]) - C(water[run - 1])) >= Step && CleanedBetween(water[run - 1].At, water[run].At)
            ? WaterCourse.SteadySinceCleaning
            : WaterCourse.SteadyElsewhere;
    }

    private bool CleanedBetween(DateTime from, DateTime to)
    {
        var clock = s.Record.Calendar.Clock;
        return s.Told.Any(r => r.Seen.WaterChangedPercent > 0 && clock.Day(r.At) >= clock.Day(from) && clock.Day(r.At) <= clock.Day(to));
    }

    private bool Rises()
    {
        if (!RoseAtLast || Last < SetPoint + Near)
        {
            return false;
        }

        var coolest = water.SkipLast(1).Where(r => r.At >= water[^1].At.AddDays(-1)).Append(water[^2]).Min(C);
        return Math.Round(Last - coolest, 2) >= Step;
    }

    private bool ComesBack() => water.Count > 1 && Math.Abs(Last - SetPoint) >= Near
        && Math.Abs(C(water[^2]) - SetPoint) - Math.Abs(Last - SetPoint) >= Below;

    private static double C(ReadingFact reading) => reading.Seen.WaterC!.Value;
}
