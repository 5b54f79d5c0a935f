namespace Tankside.Hatchery.Flags.Rules;

/// <summary>The chiller's coil cased in ice.</summary>
public static class IceRules
{
    /// <summary>Ice seen, or water much colder than the chiller aims for: thaw it; a higher set point would not help.</summary>
    public static Finding? IcedCoil(Situation s)
    {
        var ice = s.LastTold(r => r.IceOnCoil);
        var back = s.WaterC is { } w && Math.Abs(w - s.Tank.SetPointC) < s.Limits[Limits.WarmingAbove] && s.Water!.At > ice?.At;
        var seen = ice?.Seen.IceOnCoil == true && !back;
        var inferred = s.WaterC < s.Limits[Limits.IceBelow] && s.Tank.SetPointC > s.Limits[Limits.IceSetPointAbove]
            && !(ice is not null && !seen && ice.At >= s.Water!.At);
        if (!seen && !inferred)
        {
            return null;
        }

        var at = seen ? ice!.At : s.Water!.At;
        var evidence = new IceEvidence(s.Stage, seen, s.WaterC, at, s.Tank.SetPointC);
        var hazard = Hazard.Around(at, s.Limits[Limits.Losses.IceHours], s.Limits[Limits.Losses.IceShare]);
        return new Finding(FlagKind.IcedCoil, Urgency.ActNow, at, evidence, hazard);
    }
}
