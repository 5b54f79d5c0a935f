using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// Chlorine or chloramine: by a test, or by fish that gasp within a day of a water change. It kills in minutes to hours, so the gasping
/// is acted on before anybody has tested.
/// </summary>
public static class ChlorineRules
{
    public static Finding? Chlorine(Situation s)
    {
        var limit = s.Limits[Limits.ChlorineLimit];
        var test = WaterTests.Newest(s, r => r.ChlorineMgL);
        var tested = test?.Seen.ChlorineMgL > limit ? test : null;
        var sign = Gasping.AfterAChange(s);
        if (tested is null && test?.At >= sign?.Gasp.At)
        {
            sign = null; // Tested since, and there is none: it is something else that takes their breath.
        }

        if (tested is null && sign is null)
        {
            return null;
        }

        var at = new[] { tested?.At, sign?.Gasp.At }.Max()!.Value;
        var quick = sign is not null || tested?.Seen.ChlorineMgL >= s.Limits[Limits.ChlorineQuick];
        var hours = s.Limits[quick ? Limits.Losses.ChlorineQuickHours : Limits.Losses.ChlorineHours];
        var left = new Band(hours / 3, hours, hours * 3);
        var evidence = new ChlorineEvidence(
            s.Stage, at, tested?.Seen.ChlorineMgL, tested?.At, limit, sign?.Gasp.At, sign?.Change.At, sign?.Change.Seen.WaterChangedPercent,
            s.Tank.Disinfectant);
        return new Finding(FlagKind.Chlorine, Urgency.ActNow, at, evidence, new Hazard(at, left, s.Limits[Limits.Losses.ChlorineShare], left));
    }
}
