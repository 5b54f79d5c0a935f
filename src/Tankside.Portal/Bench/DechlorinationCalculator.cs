using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Portal.Bench;

/// <param name="Chlorine">Total chlorine, counted as Cl2.</param>
public sealed record DechlorinationGiven(Litres Water, MilligramsPerLitre Chlorine);

/// <param name="ThiosulfatePentahydrateMg">Sodium thiosulfate pentahydrate for all the water, mg.</param>
/// <param name="AmmoniaNFreedMgL">Ammonia set free when the chlorine is chloramine, mg/L as N.</param>
/// <param name="Caution">What to mind; always there.</param>
public sealed record DechlorinationAnswer(double ThiosulfatePentahydrateMg, double AmmoniaNFreedMgL, string Caution);

/// <summary>Sodium thiosulfate that neutralises chlorine.</summary>
public sealed class DechlorinationCalculator : Calculator<DechlorinationGiven, DechlorinationAnswer>
{
    /// <summary>Ends with who has the last word.</summary>
    public const string Caution =
        "An adult doses, and tests for zero total chlorine before the water meets fish. Neutralising chloramine leaves its ammonia in the water: test that too. The product's label, your water supplier and your fishery agency have the last word.";

    public static readonly NumberField Water =
        new("litres", "water to be treated", 0.001, 1_000_000, 100) { Measure = Measure.Volume, Unit = "L" };

    public static readonly NumberField TotalChlorine =
        new("chlorineMgL", "total chlorine (free and combined) as Cl2", 0, 1_000, 2) { Unit = "mg/L" };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "dechlorination",
        Title = "Taking out chlorine",
        Asks = "How much thiosulfate makes this tap water safe?",
        Formula = "m = 7.0 × V × Cl (pentahydrate; the anhydrous salt takes 4.46); ammonia-N set free from chloramine = 0.1975 × Cl.",
        Symbols = "m sodium thiosulfate pentahydrate, mg; V water, litres; Cl total chlorine as Cl2, mg/L.",
        Range = "Water near pH 7. It is the amount that reacts, without a margin.",
        Source = "Two moles of thiosulfate to one of chlorine: 2 × 248.18 / 70.906 = 7.0; the handbooks' 7:1 is the same. Ammonia: 14.007 / 70.906.",
        HowKnown = "A maker's support page seen; the ammonia derived from the formula of monochloramine.",
        Answers = "thiosulfatePentahydrateMg: mg for all the water; ammoniaNFreedMgL: mg/L as N, if the chlorine is chloramine; caution: what to mind.",
        Fields = [Water, TotalChlorine],
    };

    protected override DechlorinationGiven? Read(Question question) =>
        new(new Litres(question.Number(Water)), new MilligramsPerLitre(question.Number(TotalChlorine)));

    protected override DechlorinationAnswer Answer(DechlorinationGiven given, Say say) => new(
        Figures.SixFigures(Chlorine.ThiosulfatePentahydratePerChlorine * given.Chlorine.Value * given.Water.Value),
        Figures.SixFigures(Chlorine.AmmoniaNPerChlorine * given.Chlorine.Value),
        say[Caution]);
}
