using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Portal.Bench;

/// <param name="Total">Total ammonia as N.</param>
public sealed record AmmoniaGiven(MilligramsPerLitre Total, double Ph, Celsius Water);

/// <param name="UnionizedFraction">Share of the total that is un-ionised, 0 to 1.</param>
/// <param name="UnionizedNMgL">Un-ionised ammonia as N, mg/L.</param>
/// <param name="UnionizedNH3MgL">The same as NH3, mg/L.</param>
public sealed record AmmoniaAnswer(double UnionizedFraction, double UnionizedNMgL, double UnionizedNH3MgL);

/// <summary>The poisonous part of ammonia.</summary>
public sealed class AmmoniaCalculator : Calculator<AmmoniaGiven, AmmoniaAnswer>
{
    public static readonly NumberField Total =
        new("totalMgL", "total ammonia as nitrogen (TAN, NH3-N)", 0, 10_000, 1) { Unit = "mg/L as N" };

    public static readonly NumberField Ph = new("ph", "pH of the water", 0, 14, 7.2);

    public static readonly NumberField Water = NumberField.Temperature("waterC", "water temperature", 0, 40, 10);

    public override CalculatorCard Card { get; } = new()
    {
        Path = "ammonia",
        Title = "Poisonous ammonia",
        Asks = "How much of this ammonia is poisonous?",
        Formula = "f = 1 / (1 + 10^(pKa - pH)), pKa = 0.09018 + 2729.92 / T; un-ionised N = f × total; as NH3 × 1.216.",
        Symbols = "f share that is un-ionised, 0 to 1; T water temperature, kelvin; total ammonia in mg/L as N.",
        Range = "Documented for 0 to 30 °C (32 to 86 °F) and pH 5 to 10; answered for 0 to 40 °C and pH 0 to 14.",
        Source = "Emerson, Russo, Lund and Thurston 1975, J. Fish. Res. Board Can. 32:2379-2383.",
        HowKnown = "Formula from memory, checked on values quoted from the paper (second-hand). Printed tables differ by up to 1%.",
        Answers = "unionizedFraction: share of the total, 0 to 1; unionizedNMgL: mg/L as N; unionizedNH3MgL: mg/L as NH3.",
        Fields = [Total, Ph, Water],
    };

    protected override AmmoniaGiven? Read(Question question) =>
        new(new MilligramsPerLitre(question.Number(Total)), question.Number(Ph), question.Temperature(Water));

    protected override AmmoniaAnswer Answer(AmmoniaGiven given, Say say)
    {
        var poisonous = Ammonia.UnionizedN(given.Total, given.Ph, given.Water);
        return new(
            Figures.SixFigures(Ammonia.UnionizedFraction(given.Water, given.Ph)),
            Figures.SixFigures(poisonous.Value),
            Figures.SixFigures(Ammonia.AsNH3(poisonous).Value));
    }
}
