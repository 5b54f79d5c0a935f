using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Charts;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>The course of warming water drawn from a flag's own numbers, so that the picture passes the limit when its sentence says so.</summary>
public static class WarmingFan
{
    private const int Steps = 16;

    /// <summary>The fan runs on this far past the middle of the crossing.</summary>
    private const double Beyond = 1.25;

    /// <summary>Slow, likely and fast course from the last reading, programme-local time; empty when the limit is never reached.</summary>
    public static IReadOnlyList<FanPoint> Of(WarmingEvidence warming, ProgrammeClock clock)
    {
        var (water, settles) = (new Celsius(warming.WaterC), new Celsius(warming.SettlesAtC));
        if (warming.PassesAt is not { } passes
            || Warming.HoursTo(new Celsius(warming.Limit), water, settles, tauMid: 1, tauLogSd: 0) is not { Mid: > 0 } inTaus)
        {
            return [];
        }

        var until = Math.Max((passes.High - warming.At).TotalHours, (passes.Mid - warming.At).TotalHours * Beyond);
        return [.. Enumerable.Range(0, Steps + 1).Select(step =>
        {
            var hours = until * step / Steps;
            return new FanPoint(
                clock.Local(warming.At.AddHours(hours)), After(passes.High, hours), After(passes.Mid, hours), After(passes.Low, hours));
        })];

        double After(DateTime passesAt, double hours) =>
            Warming.MostAfter(water, hours, settles, (passesAt - warming.At).TotalHours / inTaus.Mid).Degrees;
    }
}
