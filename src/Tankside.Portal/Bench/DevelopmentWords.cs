using Tankside.Portal.Shell;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Bench;

/// <summary>What Science names in English alone, for a reader of either language.</summary>
internal static class DevelopmentWords
{
    public static string Fish(Species species, Say say) => say[species switch
    {
        Species.RainbowTrout => "rainbow trout",
        Species.Steelhead => "steelhead",
        Species.CutthroatTrout => "cutthroat trout",
        Species.BrownTrout => "brown trout",
        Species.BrookTrout => "brook trout",
        Species.LakeTrout => "lake trout",
        Species.AtlanticSalmon => "Atlantic salmon",
        Species.ChinookSalmon => "chinook salmon",
        Species.CohoSalmon => "coho salmon",
        Species.ChumSalmon => "chum salmon",
        Species.SockeyeSalmon => "sockeye salmon",
        Species.PinkSalmonOdd => "pink salmon (odd-year)",
        Species.PinkSalmonEven => "pink salmon (even-year)",
        _ => throw new ArgumentOutOfRangeException(nameof(species), species, "Not a known species."),
    }];

    /// <summary>A species as the form offers it; both lines of pink salmon are one.</summary>
    public static string Offered(string code, Say say) =>
        code == "pink-salmon" ? say["pink salmon"] : SpeciesCodes.TryParse(code, null, out var species) ? Fish(species, say) : code;

    /// <summary>Why there is no rule, as Science says it.</summary>
    public static string NoModel(Species species, Say say) => species switch
    {
        Species.CutthroatTrout => say["No published development model is known for cutthroat trout; an own table of temperature and days may be entered."],
        Species.LakeTrout => say["No published factor from hatch to swim-up is known for lake trout: the usual 1.7 was not fitted on charr."],
        _ => say["No published development model is known for this species and stage."],
    };

    public static string Rule(StageModel model, Say say) => say.Of("{0}; the stage comes when the sum over days of 1 / D(T) is one.", model.Species switch
    {
        Species.BrookTrout or Species.LakeTrout => say["D from the handbook table, ln D straight between its rows"],
        Species.RainbowTrout or Species.Steelhead or Species.BrownTrout or Species.AtlanticSalmon => "log10 D = a + b log10(T - α)",
        _ => "ln D = a + b ln(T - c)",
    });
}
