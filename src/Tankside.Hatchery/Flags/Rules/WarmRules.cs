namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water warmer than the stage bears. Judged on the newest reading by time read, so a late old one changes nothing.</summary>
public static class WarmRules
{
    public static Finding? TooWarmForTheStage(Situation s)
    {
        var look = s.OfStage(Limits.WarmLookEgg, Limits.WarmLookFry);
        var act = s.OfStage(Limits.WarmActEgg, Limits.WarmActFry);
        if (s.WaterC is not { } water || water < look)
        {
            return null;
        }

        var mustAct = water >= act;
        var hazard = mustAct
            ? Hazard.Around(s.Water!.At, s.Limits[Limits.Losses.WarmActHours], Rising(s.Limits[Limits.Losses.WarmActShare], water - act))
            : Hazard.Around(s.Water!.At, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        var evidence = new TemperatureEvidence(s.Stage, water, s.Water.At, mustAct ? act : look, s.WaterSince(w => w >= look), s.Tank.SetPointC);
        return new Finding(FlagKind.Warm, mustAct ? Urgency.ActNow : Urgency.Today, s.Water.At, evidence, hazard);
    }

    /// <summary>Each degree over the limit adds a tenth of the fish, up to nine in ten (judgement).</summary>
    private static double Rising(double share, double over) => Math.Min(0.9, share + (0.1 * over));
}
