using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// The hatchery handbooks' table of days from fertilisation to hatch, for rainbow, brown, brook and lake trout.
/// </summary>
/// <remarks>
/// Source: Leitritz and Lewis 1976, California Fish Bulletin 164; the same table in Piper and others 1982, Fish Hatchery
/// Management. How known: from memory, except four cells seen in a second document (rainbow 50 °F, brown 50 °F, brook 35 and
/// 50 °F). Between cells ln(days) is linear in temperature; that rule is this project's, not the handbook's.
/// </remarks>
public static class HandbookDays
{
    private static readonly (Species Species, DayTable Table)[] Tables =
    [
        (Species.RainbowTrout, new DayTable([(40, 80), (45, 48), (50, 31), (55, 24), (60, 19)])),
        (Species.BrownTrout, new DayTable([(35, 156), (40, 100), (45, 64), (50, 41)])),
        (Species.BrookTrout, new DayTable([(35, 144), (40, 103), (45, 68), (50, 44), (55, 35)])),
        (Species.LakeTrout, new DayTable([(35, 162), (40, 108), (45, 72), (50, 49)])),
    ];

    /// <summary>
    /// Days to hatch at a constant temperature. False for a species without a table and outside the table's ends (by more than
    /// the 0.09 °F that <see cref="StageModel.TableSlack"/> allows, where the end's value holds): there is no extrapolation.
    /// </summary>
    /// <param name="species">The species.</param>
    /// <param name="fahrenheit">Water temperature, °F.</param>
    /// <param name="days">Days from fertilisation to hatch.</param>
    public static bool TryDays(Species species, double fahrenheit, out double days)
    {
        days = 0;
        var slack = StageModel.TableSlack * 1.8;
        if (Find(species) is not { } table || !(fahrenheit >= table.From - slack && fahrenheit <= table.To + slack)) return false;
        days = table.At(Math.Clamp(fahrenheit, table.From, table.To));
        return true;
    }

    internal static StageModel? Hatch(Species species)
    {
        if (species is not (Species.BrookTrout or Species.LakeTrout) || Find(species) is not { } table) return null;
        var from = Celsius.FromFahrenheit(table.From).Degrees;
        var to = Celsius.FromFahrenheit(table.To).Degrees;
        var card = new StageModelCard
        {
            Name = "Handbook table, hatch",
            Source = "Leitritz & Lewis 1976, Calif. Fish Bull. 164; Piper et al. 1982, Fish Hatchery Management",
            HowKnown = species == Species.BrookTrout
                ? "from memory; the cells at 35 and 50 °F seen in a second document"
                : "from memory",
            Species = species,
            Stage = Stage.Hatch,
            FromC = from,
            ToC = to,
            AnswersFrom = from,
            AnswersTo = to,
            LogSd = 0.07,
            LogSdSource = "no source: the usual 7% is taken",
            Extrapolates = false,
        };
        return new StageModel(card, t => table.At(Cell(t)));
    }

    // 35 °F is 1.666... °C; going there and back must land on the cell again.
    private static double Cell(double celsius) => Math.Round(new Celsius(celsius).Fahrenheit, 9);

    private static DayTable? Find(Species species)
    {
        foreach (var row in Tables)
        {
            if (row.Species == species) return row.Table;
        }

        return null;
    }
}
