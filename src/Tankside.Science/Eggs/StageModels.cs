using System.Diagnostics.CodeAnalysis;

namespace Tankside.Science.Eggs;

/// <summary>
/// The published rule for each species and stage.
/// </summary>
/// <remarks>
/// <list type="bullet">
/// <item>Chinook, coho, chum, sockeye and pink salmon, hatch and swim-up: ln D = a + b ln(T - c), 2-15 °C, Beacham and
/// Murray 1990 (second-hand copy).</item>
/// <item>Rainbow trout and steelhead (4-13 °C), brown trout (1.7-12 °C), Atlantic salmon (0.15-12 °C), hatch:
/// log10 D = a + b log10(T - alpha), Crisp 1981 (from memory). The rainbow curve is about 30% early at 15 °C.</item>
/// <item>Brook and lake trout, hatch: the handbook table (<see cref="HandbookDays"/>), no extrapolation.</item>
/// <item>Swim-up where there is no fit: 1.7 x hatch, 0-9.5 °C, Crisp 1988, eight Salmo and Oncorhynchus species (abstract
/// seen). Brook trout: 1.63 x hatch from one regime at 4-12 °C (one study's abstract seen; low confidence). Lake trout:
/// none.</item>
/// <item>Eyed: 0.5 x hatch, 0-9.5 °C, Crisp 1988, Atlantic salmon (abstract seen); borrowed for every other species.</item>
/// </list>
/// D is days from fertilisation, T water temperature in °C. Curves answer outside their range with
/// <see cref="StageTime.InRange"/> false; tables do not answer there.
/// </remarks>
public static class StageModels
{
    /// <summary>Finds the rule for a species and stage; false with the reason when none is known.</summary>
    /// <param name="species">The species.</param>
    /// <param name="stage">The stage.</param>
    /// <param name="model">The rule.</param>
    /// <param name="why">Why there is none, in one English sentence; empty when there is one.</param>
    public static bool TryFind(Species species, Stage stage, [NotNullWhen(true)] out StageModel? model, out string why)
    {
        model = stage switch
        {
            Stage.Hatch => Hatch(species),
            Stage.SwimUp => PacificCurves.Find(species, Stage.SwimUp) ?? StageFractions.SwimUp(Hatch(species)),
            Stage.Eyed => StageFractions.Eyed(Hatch(species)),
            _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "Not a known stage."),
        };
        why = model is null ? WhyNot(species) : "";
        return model is not null;
    }

    /// <summary>
    /// A rule from a table of one's own: ln(days) linear in temperature between the rows, exact at the rows, no answer outside.
    /// </summary>
    /// <param name="species">The species that the table is for.</param>
    /// <param name="stage">The stage that its days lead to.</param>
    /// <param name="points">Temperature in °C (0 or more) and days from fertilisation; two rows or more, days falling as it
    /// warms.</param>
    /// <param name="source">Where the table comes from, in the words of whoever entered it.</param>
    /// <exception cref="ArgumentException">Fewer than two rows, a temperature twice or under 0 °C, days not positive, or warmer
    /// water slower.</exception>
    public static StageModel FromTable(Species species, Stage stage, IReadOnlyList<(double C, double Days)> points, string source)
    {
        var table = new DayTable(points);
        if (table.From < 0) throw new ArgumentException("Temperatures must be 0 °C or more.", nameof(points));
        var card = new StageModelCard
        {
            Name = "Own table",
            Source = source,
            HowKnown = "entered by hand",
            Species = species,
            Stage = stage,
            FromC = table.From,
            ToC = table.To,
            AnswersFrom = table.From,
            AnswersTo = table.To,
            LogSd = 0.07,
            LogSdSource = "no source: the usual 7% is taken",
            Extrapolates = false,
        };
        return new StageModel(card, table.At);
    }

    /// <summary>Swim-up and eyed as the usual multiples of a hatch rule of one's own; null where there is no multiple for the species.</summary>
    /// <param name="hatch">The rule for hatch.</param>
    /// <param name="stage">The stage asked for.</param>
    public static StageModel? FromHatch(StageModel hatch, Stage stage)
    {
        ArgumentNullException.ThrowIfNull(hatch);
        return stage switch
        {
            Stage.Hatch => hatch,
            Stage.SwimUp => StageFractions.SwimUp(hatch),
            Stage.Eyed => StageFractions.Eyed(hatch),
            _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "Not a known stage."),
        };
    }

    private static StageModel? Hatch(Species species) =>
        PacificCurves.Find(species, Stage.Hatch) ?? CrispCurves.Hatch(species) ?? HandbookDays.Hatch(species);

    private static string WhyNot(Species species) => species switch
    {
        Species.CutthroatTrout =>
            "No published development model is known for cutthroat trout; an own table of temperature and days may be entered.",
        Species.LakeTrout =>
            "No published factor from hatch to swim-up is known for lake trout: the usual 1.7 was not fitted on charr.",
        _ => "No published development model is known for this species and stage.",
    };
}
