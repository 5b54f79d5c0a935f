namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Hatch outside the interval that development allows.</summary>
public static class HatchRules
{
    /// <summary>Past the 97.5% end of the interval, and nobody has seen one hatch.</summary>
    public static Finding? LateHatch(Situation s)
    {
        if (s.Development.Hatch is not { } hatch || s.Development.HatchSeen || s.Today <= hatch.High95)
        {
            return null;
        }

        var saidNone = s.LastTold(r => r.Hatched) is { } said && s.Record.Calendar.Clock.Day(said.At) > hatch.High95;
        if (!saidNone && s.Development.SwimUp is { } swimUp && s.Today > swimUp.Mid)
        {
            return null; // A class that never answers the question is asked once, not until release.
        }

        var due = s.Record.Calendar.Clock.Utc(hatch.High95.AddDays(1), new TimeOnly(0, 0));
        var evidence = new HatchEvidence(
            s.Stage, hatch.Mid, hatch.Low95, hatch.High95, s.Today.DayNumber - hatch.High95.DayNumber, saidNone);
        var hazard = Hazard.Around(due, s.Limits[Limits.Losses.LateHatchHours], s.Limits[Limits.Losses.LateHatchShare]);
        return new Finding(FlagKind.LateHatch, Urgency.ThisWeek, due, evidence, hazard);
    }
}
