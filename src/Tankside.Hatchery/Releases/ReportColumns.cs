namespace Tankside.Hatchery.Releases;

/// <summary>How a programme's own report to its agency names and adds up the columns of the season totals.</summary>
public sealed class ReportColumns
{
    public const int Longest = 8000;

    public Guid ProgrammeId { get; init; }

    /// <summary>The mapping file as it was typed or sent.</summary>
    public required string Text { get; set; }

    public DateTime ChangedAt { get; set; }

    public Guid ChangedBy { get; set; }

    public int Version { get; set; }
}
