using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>The chiller reported off.</summary>
public static class ChillerRules
{
    /// <summary>
    /// The newest word on the chiller is that it does not run. A chiller rests when the water is at its set point, so there the flag is a
    /// question; with warmer or unknown water it is a fault.
    /// </summary>
    public static Finding? ChillerReportedOff(Situation s)
    {
        if (s.LastThatSays(r => r.ChillerRunning) is not { Seen.ChillerRunning: false } said)
        {
            return null;
        }

        var atSetPoint = s.WaterC is { } w && w < s.Tank.SetPointC + s.Limits[Limits.WarmingAbove];
        if (atSetPoint && s.Water!.At > said.At)
        {
            return null; // Read again later, still cold: it was resting.
        }

        var start = s.WaterC ?? s.Tank.SetPointC;
        var limit = s.HeatLimitFor(start);
        var (tau, logSd) = Warming.TimeConstant(new Litres(s.Tank.Litres), s.Tank.Jacket);
        var hours = Warming.HoursTo(new Celsius(limit), new Celsius(start), s.SettlesAt, tau, logSd);
        var share = s.Limits[Limits.Losses.HeatShare] * (atSetPoint ? s.Limits[Limits.Losses.ChillerDoubt] : 1);
        var hazard = hours is { } left
            ? Hazard.AfterLimit(said.At, left, s.Limits[Limits.Losses.HeatTolerance], share)
            : Hazard.Around(said.At, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        var evidence = new ChillerEvidence(
            s.Stage, said.At, s.WaterC, s.Tank.SetPointC, AllStopped(said.Seen), Situation.PassTimes(said.At, hours), hours is null ? null : limit);
        return new Finding(FlagKind.ChillerFault, atSetPoint ? Urgency.Today : Urgency.ActNow, said.At, evidence, hazard);
    }

    /// <summary>Chiller, pump and air at once: one plug, one breaker, or the street.</summary>
    public static bool AllStopped(Readings.Observation seen) =>
        seen is { ChillerRunning: false, Moving: false } or { ChillerRunning: false, Bubbles: false, Moving: not true };
}
