namespace Tankside.Science.Eggs;

/// <summary>
/// Stages reckoned as a multiple of the days to hatch. Crisp 1988, "Prediction, from temperature, of eyeing, hatching and
/// 'swim-up' times for salmonid embryos", Freshwater Biology 19:41-48; abstract seen; 0-9.5 °C.
/// </summary>
internal static class StageFractions
{
    private const string Crisp = "Crisp 1988, Freshwater Biology 19:41-48";

    // Error of the factor itself, sd of its logarithm. No source: chosen so that a derived stage is never surer than its hatch.
    private const double FittedFactorSd = 0.05;
    private const double BorrowedFactorSd = 0.10;

    public static StageModel? SwimUp(StageModel? hatch) => hatch?.Species switch
    {
        null or Species.LakeTrout => null,
        Species.BrookTrout => Times(hatch, Stage.SwimUp, 1.63, (4, 12), BorrowedFactorSd, (
            "1.63 x hatch, low confidence",
            "brook trout kept at 4-12 °C: 415 °C-days to hatch, 675 to swim-up (one farm study)",
            "abstract seen; one regime, low confidence")),
        _ => Times(hatch, Stage.SwimUp, 1.7, (0, 9.5), FittedFactorSd, (
            "1.7 x hatch", Crisp + ", eight Salmo and Oncorhynchus species", "abstract seen")),
    };

    public static StageModel? Eyed(StageModel? hatch)
    {
        if (hatch is null) return null;
        return hatch.Species == Species.AtlanticSalmon
            ? Times(hatch, Stage.Eyed, 0.5, (0, 9.5), FittedFactorSd, (
                "0.5 x hatch", Crisp + ", Atlantic salmon", "abstract seen"))
            : Times(hatch, Stage.Eyed, 0.5, (0, 9.5), BorrowedFactorSd, (
                "0.5 x hatch, borrowed from Atlantic salmon",
                Crisp + ", fitted on Atlantic salmon alone and borrowed here",
                "abstract seen; borrowed from Atlantic salmon"));
    }

    private static StageModel Times(
        StageModel hatch, Stage stage, double factor, (double From, double To) range, double factorSd,
        (string Name, string Source, string HowKnown) words)
    {
        var card = hatch.Card with
        {
            Name = words.Name + " (" + hatch.Name + ")",
            Source = words.Source + "; hatch: " + hatch.Source,
            HowKnown = words.HowKnown + "; hatch: " + hatch.HowKnown,
            Stage = stage,
            FactorOfHatch = true,
            FromC = Math.Max(hatch.FromC, range.From),
            ToC = Math.Min(hatch.ToC, range.To),
            LogSd = Math.Sqrt((hatch.LogSd * hatch.LogSd) + (factorSd * factorSd)),
            LogSdSource = "hatch: " + hatch.LogSdSource + "; factor: no source",
        };
        return new StageModel(card, t => factor * hatch.DaysUnchecked(t));
    }
}
