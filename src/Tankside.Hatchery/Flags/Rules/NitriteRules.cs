using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// Nitrite, the middle step of waste. The lowest step of a test kit already passes the limit, so one high step asks for a second test;
/// two in a row, or one far above, are acted on.
/// </summary>
public static class NitriteRules
{
    /// <summary>Nearer together than this, two tests are one told twice.</summary>
    private static readonly TimeSpan OneTest = TimeSpan.FromMinutes(10);

    public static Finding? HighNitrite(Situation s)
    {
        var look = s.Limits[Limits.NitriteLook];
        var act = s.Limits[Limits.NitriteAct];
        if (WaterTests.Newest(s, r => r.NitriteMgL) is not { } test || test.Seen.NitriteMgL < look)
        {
            return null;
        }

        var nitrite = test.Seen.NitriteMgL!.Value;
        var before = Before(s, test);
        var again = before?.Seen.NitriteMgL >= look;
        var far = nitrite >= s.Limits[Limits.NitriteFar];
        var mustAct = far || (again && nitrite >= act);
        var hazard = mustAct
            ? Hazard.Around(test.At, s.Limits[Limits.Losses.NitriteActHours], s.Limits[Limits.Losses.NitriteActShare])
            : Hazard.Around(test.At, s.Limits[Limits.Losses.NitriteLookHours], s.Limits[Limits.Losses.NitriteLookShare]);
        var evidence = new NitriteEvidence(
            s.Stage, nitrite, test.At, nitrite >= act ? act : look, again ? before!.Seen.NitriteMgL : null, again ? before!.At : null, !again && !far);
        return new Finding(FlagKind.Nitrite, mustAct ? Urgency.ActNow : Urgency.Today, test.At, evidence, hazard);
    }

    private static ReadingFact? Before(Situation s, ReadingFact test) => s.Told.LastOrDefault(r =>
        r.Seen.NitriteMgL is not null && r.At <= test.At - OneTest && r.At >= test.At.AddDays(-s.Limits[Limits.NitriteInARow]));
}
