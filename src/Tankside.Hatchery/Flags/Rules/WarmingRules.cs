using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// Water on its way up, and the hours until a limit. Two readings of the tank's own since it began to warm take over from what its
/// size and room suggest; with one, both count.
/// </summary>
public static class WarmingRules
{
    /// <summary>Error of one school thermometer, °C.</summary>
    private const double ThermometerSd = 0.4;

    /// <summary>Least log sd of a pace whose beginning lies somewhere between two readings (judgement).</summary>
    private const double UnknownStartLogSd = 0.25;

    /// <summary>A logger's readings come minutes apart, and water never warms much between two of them: it is compared over at least this long, h (judgement).</summary>
    private const double LeastHours = 0.5;

    public static Finding? WarmingFast(Situation s)
    {
        if (s.Water is not { } last || !IsRising(s, last, out var earlier))
        {
            return null;
        }

        var (pace, own) = Pace(s, last, earlier);
        var water = last.Seen.WaterC!.Value;
        var limit = s.HeatLimitFor(water);
        var hours = Warming.HoursTo(new Celsius(limit), new Celsius(water), s.SettlesAt, pace.MidHours, pace.LogSd);
        if (hours is { } band && band.Low > s.Limits[Limits.WarmingHorizon])
        {
            return null;
        }

        var perHour = (s.SettlesAt.Degrees - water) / pace.MidHours;
        var evidence = new WarmingEvidence(
            s.Stage, water, last.At, earlier?.Seen.WaterC, earlier?.At, perHour, own, limit, Situation.PassTimes(last.At, hours), s.SettlesAt.Degrees);
        var hazard = hours is { } left
            ? Hazard.AfterLimit(last.At, left, s.Limits[Limits.Losses.HeatTolerance], s.Limits[Limits.Losses.HeatShare])
            : Hazard.Around(last.At, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        return new Finding(FlagKind.WarmingFast, Urgent(s, hours), last.At, evidence, hazard);
    }

    /// <summary>
    /// Risen by the step or more since the reading before, half an hour ago or longer (or since the coolest of the last day), and above the
    /// set point; water that has turned and falls again is not rising.
    /// </summary>
    private static bool IsRising(Situation s, ReadingFact last, out ReadingFact? earlier)
    {
        var water = last.Seen.WaterC!.Value;
        var from = last.At.AddDays(-4);
        var before = s.Record.Recent.Where(r => r.Seen.WaterC is not null && r.At < last.At && r.At >= from).ToList();
        earlier = before.LastOrDefault(r => r.At <= last.At.AddHours(-LeastHours)) ?? before.FirstOrDefault();
        if (earlier is null || earlier.Seen.WaterC > water - 0.2 || water < s.Tank.SetPointC + s.Limits[Limits.WarmingAbove])
        {
            return false;
        }

        var coolest = before.Where(r => r.At >= last.At.AddHours(-24)).Select(r => r.Seen.WaterC!.Value)
            .Append(earlier.Seen.WaterC!.Value).Min();
        return Math.Round(water - coolest, 2) >= s.Limits[Limits.WarmingStep];
    }

    /// <summary>The tank's time constant: from its size, sharpened by its own readings where they lie close enough together.</summary>
    private static ((double MidHours, double LogSd) Tau, bool Own) Pace(Situation s, ReadingFact last, ReadingFact? earlier)
    {
        var prior = Warming.TimeConstant(new Litres(s.Tank.Litres), s.Tank.Jacket);
        var near = s.Limits[Limits.WarmingOwnSlope];
        if (earlier is null || (last.At - earlier.At).TotalHours > near)
        {
            return (prior, false);
        }

        // Every reading of the rise, from the newest backwards while each is cooler than the next and near it in time.
        var rise = new List<ReadingFact> { last };
        foreach (var r in s.Record.Recent.Reverse().Where(r => r.Seen.WaterC is not null && r.At < last.At))
        {
            if (r.Seen.WaterC >= rise[^1].Seen.WaterC - 0.1 || (rise[^1].At - r.At).TotalHours > near)
            {
                break;
            }

            rise.Add(r);
        }

        rise.Reverse();
        var first = rise[0].At;
        var points = rise.Select(r => ((r.At - first).TotalHours, new Celsius(r.Seen.WaterC!.Value))).ToList();
        var (mid, logSd) = Warming.UpdateTau(prior.MidHours, prior.LogSd, points, s.SettlesAt, ThermometerSd);

        // With the first of them still at the set point nobody knows when the rise began: the pace may be faster than the slope.
        var beganInBetween = points.Count == 2 && points[0].Item2.Degrees < s.Tank.SetPointC + s.Limits[Limits.WarmingAbove];
        return ((mid, beganInBetween ? Math.Max(logSd, UnknownStartLogSd) : logSd), true);
    }

    private static Urgency Urgent(Situation s, Band? hours)
    {
        if (hours is not { } left)
        {
            return Urgency.Today;
        }

        // Act now when the limit may be passed before an adult is next there after the coming school day.
        var (_, unattended) = MorningRound.ActTimes(s.Record.Calendar, s.Now);
        return s.Water!.At.AddHours(left.Low) <= unattended ? Urgency.ActNow : Urgency.Today;
    }
}
