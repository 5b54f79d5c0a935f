using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>What somebody at the tank sees or feels without a number.</summary>
public static class SignRules
{
    /// <summary>Warm to the touch, until a thermometer says how warm.</summary>
    public static Finding? SaidToBeWarm(Situation s)
    {
        if (s.LastTold(r => r.FeelsWarm) is not { Seen.FeelsWarm: true } said || s.Water?.At >= said.At)
        {
            return null;
        }

        var evidence = new SaidWarmEvidence(s.Stage, said.At, s.WaterC, s.Water?.At);
        var hazard = Hazard.Around(said.At, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        return new Finding(FlagKind.Warm, Urgency.Today, said.At, evidence, hazard);
    }

    /// <summary>A tank that runs out: pump and air fall dry before the fish lie bare.</summary>
    public static Finding? WaterOnTheFloor(Situation s) =>
        s.LastTold(r => r.WaterOnFloor) is { Seen.WaterOnFloor: true } said
            ? new Finding(
                FlagKind.PumpFault,
                Urgency.ActNow,
                said.At,
                new LeakEvidence(s.Stage, said.At),
                Hazard.Around(said.At, s.Limits[Limits.Losses.LeakHours], s.Limits[Limits.Losses.LeakShare]))
            : null;

    /// <summary>
    /// Cloudy water is food or waste that rots, and ammonia comes next: a test is due. In the days after a hatch it is the foam of the
    /// shells; a tick among others raises nothing then, but whoever sent this one word and nothing else is worried and is called.
    /// </summary>
    public static Finding? CloudyAndNotTested(Situation s)
    {
        if (s.LastTold(r => r.Clear) is not { Seen.Clear: false } said || said.At < s.Now.AddDays(-s.Limits[Limits.CloudyDays])
            || s.LastTold(r => r.AmmoniaTotalMgL)?.At >= said.At || (IsFoam(s) && said.Seen != new Observation { Clear = false }))
        {
            return null;
        }

        var since = s.Told.Reverse().Where(r => r.Seen.Clear is not null).TakeWhile(r => r.Seen.Clear == false).Last().At;
        var hazard = Hazard.Around(said.At, s.Limits[Limits.Losses.CloudyHours], s.Limits[Limits.Losses.CloudyShare]);
        return new Finding(FlagKind.Ammonia, Urgency.ThisWeek, said.At, new CloudyEvidence(s.Stage, said.At, since), hazard);
    }

    private static bool IsFoam(Situation s) => UsualLoss.HatchOf(s.Development) is { } hatched
        && s.Today >= hatched && s.Today < hatched.AddDays((int)s.Limits[Limits.FoamDays]);
}
