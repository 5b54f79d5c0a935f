using Tankside.Hatchery.Eggs;
using Tankside.Science.Growth;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water that does not move, or has no bubbles: hours of oxygen, by stage and number.</summary>
public static class FlowRules
{
    public static Finding? PumpReportedStopped(Situation s)
    {
        var moving = s.LastThatSays(r => r.Moving);
        var bubbles = s.LastThatSays(r => r.Bubbles);
        var still = moving?.Seen.Moving == false;
        var noBubbles = bubbles?.Seen.Bubbles == false;
        if (!still && !noBubbles)
        {
            return null;
        }

        var said = still ? moving! : bubbles!;
        var hours = still ? StillWaterHours(s) : OxygenHours(s);
        var share = s.Limits[still ? Limits.Losses.StillWaterShare : Limits.Losses.NoAirShare];
        var hazard = hours is { } left ? Hazard.AfterLimit(said.At, left, s.Limits[Limits.Losses.AirTolerance], share) : Hazard.Around(said.At, 72, share / 4);
        var evidence = new FlowEvidence(
            s.Stage, said.At, still, noBubbles, ChillerRules.AllStopped(said.Seen), s.WaterC, s.Record.Fish);
        var urgent = still || hours is { Mid: < 24 };
        return new Finding(FlagKind.PumpFault, urgent ? Urgency.ActNow : Urgency.Today, said.At, evidence, hazard);
    }

    /// <summary>Heaped eggs and alevins smother where they lie long before the tank's average is low.</summary>
    private static Band? StillWaterHours(Situation s)
    {
        var whole = OxygenHours(s);
        if (s.Swims)
        {
            return whole;
        }

        var heap = s.Limits[Limits.StillBasketHours];
        var basket = new Band(heap / 6, heap, heap * 4);
        return whole is { } tank && tank.Mid < basket.Mid ? tank : basket;
    }

    /// <summary>A fry's weight by its warmth since swim-up: the same power cut is a shrug in November and an emergency in April.</summary>
    private static double Grams(Situation s)
    {
        var days = s.Development.SwimUp is { } swimUp ? Math.Max(0, s.Today.DayNumber - swimUp.Mid.DayNumber) : 0;
        return Math.Max(s.Limits[Limits.FryGrams], FryGrowth.GramsAfter(days * Math.Max(0, s.Tank.SetPointC)));
    }

    private static Band? OxygenHours(Situation s)
    {
        var water = new Celsius(Math.Clamp(s.WaterC ?? s.Tank.SetPointC, 0, 30));
        var pressure = Pressure.AtElevation(s.Tank.ElevationM);
        var full = Oxygen.Saturation(water, pressure);
        var limit = new MilligramsPerLitre(s.OfStage(Limits.OxygenLimitEgg, Limits.OxygenLimitFry));
        var hours = Oxygen.HoursUntil(new OxygenSituation
        {
            Volume = new Litres(s.Tank.Litres),
            Water = water,
            Pressure = pressure,
            Stage = s.Stage switch
            {
                LifeStage.Egg => FishStage.Egg,
                LifeStage.Alevin => FishStage.Alevin,
                LifeStage.Fry => FishStage.Fry,
            },
            Fish = s.Record.Fish,
            MeanGrams = Grams(s),
            Start = new MilligramsPerLitre(full.Value * 0.9),
            Limit = limit,
        });
        return hours is { Low: { } low, Mid: { } mid, High: { } high } ? new Band(low, mid, high)
            : hours is { Low: { } soonest, Mid: { } middle } ? new Band(soonest, middle, middle * 4)
            : null;
    }
}
