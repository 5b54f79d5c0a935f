using System.Globalization;
using System.Text.Json.Serialization;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Bench;

public sealed record WaterChangeGiven(double CurrentMgL, double TargetMgL, double SourceMgL, double LargestChangePercent);

/// <param name="Steps">Percent of the water each time, equal steps; empty when none is needed, null when none helps.</param>
/// <param name="Caution">What to mind; always there.</param>
/// <param name="Why">Why there are no steps.</param>
public sealed record WaterChangeAnswer(
    IReadOnlyList<double>? Steps, string Caution,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Why = null);

/// <summary>Water changes that bring a substance down.</summary>
public sealed class WaterChangeCalculator : Calculator<WaterChangeGiven, WaterChangeAnswer>
{
    /// <summary>More changes than this are no plan.</summary>
    private const int MostSteps = 365;

    public const string Caution =
        "Ammonia: test the pH of tank and new water first. New water that is more alkaline turns more of the ammonia left in the tank into its poisonous kind (about ten times as much at pH 8 as at pH 7), so a big change can harm: make it small and ask your local biologist. The new water must be free of chlorine and as cold as the tank.";

    public static readonly NumberField Current = Amount("currentMgL", "what the tank's water holds now", 2);
    public static readonly NumberField Target = Amount("targetMgL", "what it should hold", 0.5);
    public static readonly NumberField New = Amount("sourceMgL", "what the new water holds", 0);

    public static readonly NumberField Largest =
        new("largestChangePercent", "largest part of the water to change at once", 1, 100, 25) { Unit = "%" };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "water-change",
        Title = "Water changes",
        Asks = "How many water changes bring it down?",
        Formula = "(target - source) / (current - source) = (1 - f)^n; the fewest equal changes n for which f is not above the largest.",
        Symbols = "f part of the water changed each time, 0 to 1; n number of changes; the rest in mg/L of the same substance.",
        Range = "Well-mixed water in which nothing is added or used up between the changes; fish go on making ammonia, so test again.",
        Source = "Mass balance of mixed water.",
        HowKnown = "Derived.",
        Answers = "steps: percent of the water each time, empty when the target is already met, null with why when changes cannot meet it; caution: what to mind.",
        Fields = [Current, Target, New, Largest],
    };

    protected override WaterChangeGiven? Read(Question question) =>
        new(question.Number(Current), question.Number(Target), question.Number(New), question.Number(Largest));

    protected override WaterChangeAnswer Answer(WaterChangeGiven given, Say say)
    {
        if (given.CurrentMgL <= given.TargetMgL) return new([], say[Caution]);
        if (given.TargetMgL < given.SourceMgL)
            return new(null, say[Caution], say["The target is below what the new water itself holds, so no change of water reaches it."]);
        var left = (given.TargetMgL - given.SourceMgL) / (given.CurrentMgL - given.SourceMgL);
        var largest = given.LargestChangePercent / 100;
        if (left == 0 && largest < 1)
        {
            return new(null, say[Caution], say["The target is what the new water itself holds; only changing all the water reaches that exactly."]);
        }


        // Rounding in the logarithms must not cost a whole extra change.
        var needed = largest >= 1 ? 1 : Math.Max(1, Math.Ceiling((Math.Log(left) / Math.Log(1 - largest)) - 1e-9));
        if (needed > MostSteps)
        {
            var count = needed.ToString("0", CultureInfo.InvariantCulture);
            return new(null, say[Caution], say.Of("It would take {0} changes. Raise the target or the largest change.", count));
        }

        var each = Math.Min(given.LargestChangePercent, 100 * (1 - Math.Pow(left, 1 / needed)));
        return new([.. Enumerable.Repeat(Figures.SixFigures(each), (int)needed)], say[Caution]);
    }

    private static NumberField Amount(string name, string words, double example) =>
        new(name, words, 0, 1_000_000, example) { Unit = "mg/L" };
}
