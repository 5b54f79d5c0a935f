using System.Text.Json;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Eggs;

/// <summary>A programme's own days to a stage by temperature, for a species that no published rule is known for.</summary>
public sealed class OwnStageTable
{
    /// <summary>Rows a table may have.</summary>
    public const int MostRows = 40;

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Species Species { get; init; }

    public Stage Stage { get; init; }

    /// <summary>[°C, days] pairs as JSON.</summary>
    public required string Points { get; set; }

    /// <summary>Where the numbers come from, in the words of whoever entered them.</summary>
    public required string Source { get; set; }

    public DateTime EnteredAt { get; set; }

    public Guid EnteredBy { get; set; }

    public int Version { get; set; }

    public IReadOnlyList<(double C, double Days)> Rows() =>
        [.. (JsonSerializer.Deserialize<List<double[]>>(Points) ?? []).Where(p => p.Length == 2).Select(p => (p[0], p[1]))];

    public static string Write(IEnumerable<(double C, double Days)> rows) => JsonSerializer.Serialize(rows.Select(r => new[] { r.C, r.Days }));

    public StageModel Model() => StageModels.FromTable(Species, Stage, Rows(), Source);

    /// <summary>What is wrong with rows for a table; null when they make one.</summary>
    public static string? WrongWith(Species species, Stage stage, IReadOnlyList<(double C, double Days)> rows)
    {
        if (rows.Count is < 2 or > MostRows)
        {
            return $"A table has 2 to {MostRows} rows, each a temperature and the days from fertilisation; {rows.Count} were understood.";
        }

        try
        {
            _ = StageModels.FromTable(species, stage, rows, "");
            return null;
        }
        catch (ArgumentException e)
        {
            return e.Message.Split(" (Parameter", 2)[0];
        }
    }
}
