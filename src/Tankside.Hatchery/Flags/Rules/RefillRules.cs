namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water that went in much colder than the tank's own: told as cold, though the water itself is not too cold for the stage.</summary>
public static class RefillRules
{
    /// <summary>Two temperatures further apart than this say nothing about one water change (judgement).</summary>
    private static readonly TimeSpan Apart = TimeSpan.FromHours(36);

    /// <summary>What was changed so long before the first of them can still be the cause (judgement).</summary>
    private static readonly TimeSpan Before = TimeSpan.FromHours(3);

    /// <summary>After so long it is history: the fish have stood it or not (judgement).</summary>
    private static readonly TimeSpan News = TimeSpan.FromDays(2);

    public static Finding? MuchColder(Situation s)
    {
        if (s.Water is not { } last || s.Now - last.At > News || IceRules.IcedCoil(s) is not null)
        {
            return null;
        }

        var earlier = s.Record.Recent.LastOrDefault(r => r.Seen.WaterC is not null && r.At < last.At);
        var changed = s.Told.LastOrDefault(r => r.Seen.WaterChangedPercent > 0 && r.At <= last.At && r.At >= earlier?.At - Before);
        if (earlier is null || changed is null || last.At - earlier.At > Apart
            || Math.Round(earlier.Seen.WaterC!.Value - last.Seen.WaterC!.Value, 2) < s.Limits[Limits.ColdRefill])
        {
            return null;
        }

        var evidence = new RefillEvidence(
            s.Stage, last.Seen.WaterC!.Value, last.At, earlier.Seen.WaterC!.Value, earlier.At, changed.Seen.WaterChangedPercent!.Value);
        return new Finding(
            FlagKind.Cold, Urgency.Today, last.At, evidence,
            Hazard.Around(last.At, s.Limits[Limits.Losses.ColdActHours], s.Limits[Limits.Losses.ColdActShare]));
    }
}
