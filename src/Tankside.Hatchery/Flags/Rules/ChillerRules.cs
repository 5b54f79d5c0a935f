using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>The chiller reported off.</summary>
public static class ChillerRules
{
    /// <summary>
    /// The newest word on the chiller is that it does not run. A chiller rests when the water is at its set point, so there the flag is a
    /// question, as it is where the water has come back since; with warmer or unknown water it is a fault.
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

        // The clock starts where the temperature was read: the old word with a new temperature would count its hours twice.
        var from = s.Water?.At > said.At ? s.Water.At : said.At;
        var comesBack = ComesBack(s, said.At);
        var start = s.WaterC ?? s.Tank.SetPointC;
        var limit = s.HeatLimitFor(start);
        var (tau, logSd) = Warming.TimeConstant(new Litres(s.Tank.Litres), s.Tank.Jacket);
        var hours = comesBack ? null : Warming.HoursTo(new Celsius(limit), new Celsius(start), s.SettlesAt, tau, logSd);
        var share = s.Limits[Limits.Losses.HeatShare] * (atSetPoint ? s.Limits[Limits.Losses.ChillerDoubt] : 1);
        var hazard = hours is { } left
            ? Hazard.AfterLimit(from, left, s.Limits[Limits.Losses.HeatTolerance], share)
            : Hazard.Around(from, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        var evidence = new ChillerEvidence(
            s.Stage, said.At, s.WaterC, s.Tank.SetPointC, AllStopped(said.Seen), Situation.PassTimes(from, hours), hours is null ? null : limit);
        return new Finding(FlagKind.ChillerFault, atSetPoint || comesBack ? Urgency.Today : Urgency.ActNow, said.At, evidence, hazard);
    }

    /// <summary>
    /// Fallen since the chiller was said to be off, with no water changed, and not rising again: something cools it. Whether that is the
    /// chiller or ice in a bottle is still to be asked, but no hours run.
    /// </summary>
    private static bool ComesBack(Situation s, DateTime saidAt)
    {
        var water = s.Record.Recent.Where(r => r.Seen.WaterC is not null).ToList();
        var before = water.FindLastIndex(r => r.At <= saidAt);
        var since = water.Skip(Math.Max(0, before)).ToList();
        if (since.Count < 2 || s.WaterC > since[^2].Seen.WaterC + 0.1)
        {
            return false;
        }

        var fallen = since.Max(r => r.Seen.WaterC!.Value) - s.WaterC!.Value;
        return Math.Round(fallen, 2) >= s.Limits[Limits.Faults.Below]
            && !s.Told.Any(r => r.Seen.WaterChangedPercent > 0 && r.At > since[0].At);
    }

    /// <summary>Chiller, pump and air at once: one plug, one breaker, or the street.</summary>
    public static bool AllStopped(Readings.Observation seen) =>
        seen is { ChillerRunning: false, Moving: false } or { ChillerRunning: false, Bubbles: false, Moving: not true };
}
