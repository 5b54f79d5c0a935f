namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water colder than the stage bears. Judged on the newest reading by time read, so a late old one changes nothing.</summary>
public static class ColdRules
{
    /// <summary>Cold water; where a frozen coil explains it, that flag stands instead.</summary>
    public static Finding? TooColdForTheStage(Situation s)
    {
        var look = s.OfStage(Limits.ColdLookEgg, Limits.ColdLookFry);
        var act = s.OfStage(Limits.ColdActEgg, Limits.ColdActFry);
        if (s.WaterC is not { } water || water > look || IceRules.IcedCoil(s) is not null)
        {
            return null;
        }

        var mustAct = water <= act;
        var hazard = mustAct
            ? Hazard.Around(s.Water!.At, s.Limits[Limits.Losses.ColdActHours], s.Limits[Limits.Losses.ColdActShare])
            : Hazard.Around(s.Water!.At, s.Limits[Limits.Losses.ColdLookHours], s.Limits[Limits.Losses.ColdLookShare]);
        var evidence = new TemperatureEvidence(s.Stage, water, s.Water.At, mustAct ? act : look, s.WaterSince(w => w <= look), s.Tank.SetPointC);
        return new Finding(FlagKind.Cold, mustAct ? Urgency.Today : Urgency.ThisWeek, s.Water.At, evidence, hazard);
    }
}
