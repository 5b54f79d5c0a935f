using Tankside.Hatchery.Readings;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Ammonia is never judged by its total alone: what harms is the part that pH and warmth set free.</summary>
public static class AmmoniaRules
{
    public static Finding? PoisonousAmmonia(Situation s)
    {
        if (WaterTests.Newest(s, r => r.AmmoniaTotalMgL) is not { } test)
        {
            return null;
        }

        var total = test.Seen.AmmoniaTotalMgL!.Value;
        var water = WaterTests.WaterAt(s, test);
        var ph = WaterTests.Near(s, test, r => r.Ph, s.Limits[Limits.AmmoniaPhAge]);
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
}
