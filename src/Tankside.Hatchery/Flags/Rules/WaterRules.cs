using Tankside.Hatchery.Readings;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water tests. Ammonia is never judged by its total alone: what harms is the part that pH and warmth set free.</summary>
public static class WaterRules
{
    /// <summary>A test older than this many days no longer speaks for the water.</summary>
    private const int Stale = 4;

    public static Finding? PoisonousAmmonia(Situation s)
    {
        if (s.LastThatSays(r => r.AmmoniaTotalMgL) is not { } test || test.At < s.Now.AddDays(-Stale))
        {
            return null;
        }

        var total = test.Seen.AmmoniaTotalMgL!.Value;
        var water = Math.Clamp(Near(s, test, r => r.WaterC, 1)?.Seen.WaterC ?? s.Tank.SetPointC, 0, 40);
        var ph = Near(s, test, r => r.Ph, s.Limits[Limits.AmmoniaPhAge]);
        var look = s.Limits[Limits.AmmoniaLook];
        var act = s.Limits[Limits.AmmoniaAct];
        var assumed = ph?.Seen.Ph ?? s.Limits[Limits.AmmoniaDoubtPh];
        var poison = Ammonia.UnionizedN(new MilligramsPerLitre(total), assumed, new Celsius(water)).Value;
        if (poison < look)
        {
            return null;
        }

        if (ph is null)
        {
            var question = new AmmoniaEvidence(s.Stage, total, test.At, null, null, water, null, look);
            return new Finding(FlagKind.Ammonia, Urgency.Today, test.At, question, Lookout(s, test));
        }

        var mustAct = poison >= act;
        var hazard = mustAct
            ? Hazard.Around(test.At, s.Limits[Limits.Losses.AmmoniaActHours], s.Limits[Limits.Losses.AmmoniaActShare])
            : Lookout(s, test);
        var evidence = new AmmoniaEvidence(s.Stage, total, test.At, ph.Seen.Ph, ph.At, water, poison, mustAct ? act : look);
        return new Finding(FlagKind.Ammonia, mustAct ? Urgency.ActNow : Urgency.Today, test.At, evidence, hazard);
    }

    private static Hazard Lookout(Situation s, ReadingFact test) =>
        Hazard.Around(test.At, s.Limits[Limits.Losses.AmmoniaLookHours], s.Limits[Limits.Losses.AmmoniaLookShare]);

    /// <summary>The value read nearest in time to a test, within so many days of it.</summary>
    private static ReadingFact? Near(Situation s, ReadingFact test, Func<Observation, double?> what, double days) =>
        s.Record.Recent
            .Where(r => what(r.Seen) is not null && Math.Abs((r.At - test.At).TotalDays) <= days)
            .MinBy(r => Math.Abs((r.At - test.At).Ticks));
}
