namespace Tankside.Science.Eggs;

/// <summary>
/// Written codes of the species: the trade's common names in lower case with hyphens. Both lines of pink salmon share
/// <c>pink-salmon</c> and are told apart by a second word, <c>odd</c> or <c>even</c>. Source: naming only, no science.
/// </summary>
public static class SpeciesCodes
{
    private const string Pink = "pink-salmon";

    private static readonly (Species Species, string Code)[] Codes =
    [
        (Species.RainbowTrout, "rainbow-trout"),
        (Species.Steelhead, "steelhead"),
        (Species.CutthroatTrout, "cutthroat-trout"),
        (Species.BrownTrout, "brown-trout"),
        (Species.BrookTrout, "brook-trout"),
        (Species.LakeTrout, "lake-trout"),
        (Species.AtlanticSalmon, "atlantic-salmon"),
        (Species.ChinookSalmon, "chinook-salmon"),
        (Species.CohoSalmon, "coho-salmon"),
        (Species.ChumSalmon, "chum-salmon"),
        (Species.SockeyeSalmon, "sockeye-salmon"),
        (Species.PinkSalmonOdd, Pink),
        (Species.PinkSalmonEven, Pink),
    ];

    /// <summary>The code of a species. Both pink salmon give <c>pink-salmon</c>. Throws for a value outside the enum.</summary>
    /// <param name="species">The species.</param>
    public static string CodeOf(Species species)
    {
        foreach (var row in Codes)
        {
            if (row.Species == species) return row.Code;
        }

        throw new ArgumentOutOfRangeException(nameof(species), species, "Not a known species.");
    }

    /// <summary>
    /// Reads a code, ignoring case. <paramref name="line"/> matters for pink salmon alone: <c>odd</c>, <c>even</c>, or null or
    /// empty for odd; any other word makes the code unknown.
    /// </summary>
    /// <param name="code">The written code, for example <c>brook-trout</c>.</param>
    /// <param name="line">The brood line of pink salmon.</param>
    /// <param name="species">The species when the code is known.</param>
    /// <returns>Whether the code is known.</returns>
    public static bool TryParse(string code, string? line, out Species species)
    {
        if (string.Equals(code, Pink, StringComparison.OrdinalIgnoreCase)) return TryPink(line, out species);
        foreach (var row in Codes)
        {
            if (!string.Equals(row.Code, code, StringComparison.OrdinalIgnoreCase)) continue;
            species = row.Species;
            return true;
        }

        species = default;
        return false;
    }

    /// <summary>The common name in lower case, for example <c>rainbow trout</c>; pink salmon name their line.</summary>
    /// <param name="species">The species.</param>
    public static string CommonName(Species species) => species switch
    {
        Species.PinkSalmonOdd => "pink salmon (odd-year)",
        Species.PinkSalmonEven => "pink salmon (even-year)",
        _ => Capitalised(CodeOf(species).Replace('-', ' ')),
    };

    // Atlantic is a place, so it keeps its capital in running text.
    private static string Capitalised(string name) =>
        name.StartsWith("atlantic", StringComparison.Ordinal) ? "Atlantic" + name["atlantic".Length..] : name;

    private static bool TryPink(string? line, out Species species)
    {
        var even = string.Equals(line, "even", StringComparison.OrdinalIgnoreCase);
        species = even ? Species.PinkSalmonEven : Species.PinkSalmonOdd;
        return even || string.IsNullOrEmpty(line) || string.Equals(line, "odd", StringComparison.OrdinalIgnoreCase);
    }
}
