using System.Text.Json.Serialization;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Portal.Bench;

/// <param name="Days">Mean water temperature of each day; the last goes on. A single one is a constant temperature.</param>
/// <param name="Elapsed">Fraction of the way already done, 0 to below 1.</param>
public sealed record DevelopmentGiven(StageModel Model, IReadOnlyList<Celsius> Days, double Elapsed);

/// <param name="Days">Days until half of the fish reach the stage; null when they never do.</param>
/// <param name="Low">Near end of the 80% interval, days.</param>
/// <param name="High">Far end of the 80% interval, days.</param>
/// <param name="Model">The published rule.</param>
/// <param name="Source">Who published it and how its numbers are known.</param>
/// <param name="InRange">Whether the source covers every temperature used.</param>
/// <param name="Why">Why there are no days.</param>
public sealed record DevelopmentAnswer(
    double? Days, double? Low, double? High, string Model, string Source, bool InRange,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Why = null);

/// <summary>Days until eggs hatch or fry swim up.</summary>
public sealed class DevelopmentCalculator : Calculator<DevelopmentGiven, DevelopmentAnswer>
{
    private const double Coldest = -5, Warmest = 40;
    private const int MostDays = 1000;

    public static readonly WordField SpeciesCode = new(
        "species", "the species", [.. Enum.GetValues<Species>().Select(SpeciesCodes.CodeOf).Distinct()]);

    public static readonly WordField StageCode = new("stage", "the stage asked about, half of the fish", ["hatch", "swim-up"]);

    public static readonly WordField Line =
        new("line", "brood line, for pink-salmon alone", ["odd", "even"], "odd") { Required = false };

    public static readonly NumberField Mean =
        NumberField.Temperature("meanC", "constant water temperature; either this or temperatures", Coldest, Warmest, 9.5)
            with
        { Required = false };

    public static readonly DaysField Temperatures =
        new("temperatures", "daily mean water temperatures, °C, commas between; the last goes on", Coldest, Warmest, MostDays)
        { Required = false };

    public static readonly NumberField ElapsedFraction =
        new("elapsedFraction", "fraction of the way from fertilisation already done; the days are then from now", 0, 1, 0.5)
        { Required = false, HighOpen = true };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "development",
        Title = "Egg development",
        Asks = "When do the eggs hatch, and when do the fry swim up?",
        Formula = "The stage comes when the sum over days of 1 / D(T) is one. D(T) by species: ln D = a + b ln(T - c) for Pacific salmon; log10 D = a + b log10(T - α) for rainbow trout, steelhead, brown trout and Atlantic salmon; a handbook table, read with ln D linear between its rows, for brook and lake trout; swim-up without a fit of its own: 1.7 × hatch (brook trout 1.63).",
        Symbols = "D days from fertilisation to half of the fish at a constant T °C; a, b, c, α fitted for each species and stage.",
        Range = "Each model's own, shown with the answer. Curves answer outside it and say so; tables do not answer there.",
        Source = "Beacham and Murray 1990; Crisp 1981 and 1988; Leitritz and Lewis 1976.",
        HowKnown = "Partly second-hand, partly from memory; each answer says which. No model is known for cutthroat trout.",
        Answers = "days: until half of the fish reach the stage, from fertilisation or, with elapsedFraction, from now; low, high: 80% interval of the model's error, days, doubled outside its range; model; source; inRange: whether the source covers every temperature used. Null days with why when the stage is never reached; 422 when no model is published.",
        Fields = [SpeciesCode, StageCode, Mean, Temperatures, ElapsedFraction, Line],
    };

    protected override DevelopmentGiven? Read(Question question)
    {
        var code = question.Word(SpeciesCode);
        var stage = question.Word(StageCode) == "hatch" ? Stage.Hatch : Stage.SwimUp;
        var line = code == "pink-salmon" ? question.Word(Line) : null;
        var days = ReadDays(question);
        var elapsed = question.Maybe(ElapsedFraction) ?? 0;
        if (!question.Stands || days is null || !SpeciesCodes.TryParse(code, line, out var species)) return null;
        if (!StageModels.TryFind(species, stage, out var model, out var why))
        {
            question.IsNotKnown(SpeciesCode, question.Say.IsSpanish ? DevelopmentWords.NoModel(species, question.Say) : why);
            return null;
        }

        var given = new DevelopmentGiven(model, days, elapsed);
        RefuseOutsideTable(question, given);
        return given;
    }

    protected override DevelopmentAnswer Answer(DevelopmentGiven given, Say say)
    {
        var source = $"{given.Model.Source} ({given.Model.HowKnown})";
        if (DevelopmentDays.Until(given) is not { } days)
        {
            return new(null, null, null, given.Model.Name, source, false, say["In water this cold the model sees no development, so the stage is never reached."]);
        }

        var inRange = DevelopmentDays.Used(given).All(given.Model.InRange);
        var (low, high) = DevelopmentDays.Interval(given, days, inRange);
        return new(Math.Round(days, 3), Math.Round(low, 3), Math.Round(high, 3), given.Model.Name, source, inRange);
    }

    private static IReadOnlyList<Celsius>? ReadDays(Question question)
    {
        var (mean, days) = (question.Maybe(Mean), question.Days(Temperatures));
        var (hasMean, hasDays) = (question.Has(Mean), question.Has(Temperatures));
        if (hasMean == hasDays)
        {
            var what = hasMean ? "Both meanC and temperatures are given." : "Missing.";
            foreach (var field in (Field[])[Mean, Temperatures])
            {
                question.Refuse(field, question.OnPage
                    ? question.Say["Give either one steady temperature or the daily ones."]
                    : $"{what} Expected either meanC or temperatures, for example {field.Name}={field.Sample}.");
            }
        }

        return mean is { } steady ? [new Celsius(steady)] : days;
    }

    private static void RefuseOutsideTable(Question question, DevelopmentGiven given)
    {
        if (given.Model.ExtrapolatesOutside) return;
        var used = DevelopmentDays.Used(given);
        for (var day = 0; day < used.Count; day++)
        {
            if (given.Model.InRange(used[day])) continue;
            var (fish, from, to, water) = (DevelopmentWords.Fish(given.Model.Species, question.Say), Both(given.Model.FromC), Both(given.Model.ToC), Both(used[day].Degrees));
            if (given.Days.Count > 1)
            {
                question.IsNotKnown(Temperatures, question.Say.Of("The handbook table for {0} runs from {1} to {2}; day {3} is {4}, and a table is not stretched beyond its ends.", fish, from, to, day + 1, water));
            }
            else
            {
                question.IsNotKnown(Mean, question.Say.Of("The handbook table for {0} runs from {1} to {2}; the water is {3}, and a table is not stretched beyond its ends.", fish, from, to, water));
            }

            return;
        }
    }

    private static string Both(double c) =>
        $"{Figures.To(c, 2)} °C ({Figures.To(new Celsius(c).Fahrenheit, 1)} °F)";
}
