using Tankside.Hatchery.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water that does not move, or has no bubbles: hours of oxygen, by stage and number.</summary>
public static class FlowRules
{
    public static Finding? PumpReportedStopped(Situation s)
    {
        var moving = s.LastTold(r => r.Moving);
        var bubbles = s.LastTold(r => r.Bubbles);
        var still = moving?.Seen.Moving == false;
        var noBubbles = bubbles?.Seen.Bubbles == false;
        if (!still && !noBubbles)
        {
            return null;
        }

        var said = still ? moving! : bubbles!;
        var hours = still ? StillWaterHours(s) : TankHours(s);
        var share = s.Limits[still ? Limits.Losses.StillWaterShare : Limits.Losses.NoAirShare];
        var hazard = hours is { } left ? Hazard.AfterLimit(said.At, left, s.Limits[Limits.Losses.AirTolerance], share) : Hazard.Around(said.At, 72, share / 4);
        var evidence = new FlowEvidence(
            s.Stage, said.At, still, noBubbles, ChillerRules.AllStopped(said.Seen), s.WaterC, s.Record.Fish);
        var urgent = still || hours is { Mid: < 24 };
        return new Finding(FlagKind.PumpFault, urgent ? Urgency.ActNow : Urgency.Today, said.At, evidence, hazard);
    }

    /// <summary>Hours of oxygen with pump and air off in a whole building: eggs lie one deep and take no harm, alevins heap.</summary>
    internal static Band? HoursWithoutPower(Situation s) => s.Stage == LifeStage.Alevin ? StillWaterHours(s) : TankHours(s);

    private static Band? StillWaterHours(Situation s) => OxygenHours.WhereTheyLie(s, TankHours(s));

    /// <summary>Hours until the whole tank is short of oxygen with pump and air stopped; null where the surface gives as much as is used.</summary>
    internal static Band? TankHours(Situation s)
    {
        var water = Math.Clamp(s.WaterC ?? s.Tank.SetPointC, 0, 30);
        return OxygenHours.OfTank(s, water, OxygenHours.Full(s, water) * 0.9, s.OfStage(Limits.OxygenLimitEgg, Limits.OxygenLimitFry));
    }
}
