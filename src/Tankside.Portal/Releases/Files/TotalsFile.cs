using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Files;

/// <summary>A kind of file that the account is written as.</summary>
/// <param name="Ending">With its dot, as file names end.</param>
/// <param name="MediaType">As a program asks for it.</param>
/// <param name="ContentType">As it is sent.</param>
/// <param name="Word">As people call it.</param>
public sealed record TotalsFile(
    string Ending, string MediaType, string ContentType, string Word, Func<SeasonTotals, Stream, Action<int>?, CancellationToken, Task> WriteAsync)
{
    /// <summary>The first is what is given when nothing is asked for.</summary>
    public static IReadOnlyList<TotalsFile> All { get; } =
    [
        new(".csv", "text/csv", "text/csv; charset=utf-8; header=present", "CSV", TotalsCsv.WriteAsync),
        new(".xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "spreadsheet (XLSX)", TotalsXlsx.WriteAsync),
        new(".pdf", "application/pdf", "application/pdf", "report (PDF)", TotalsPdf.WriteAsync),
    ];

    /// <summary>By a file's name; null for an ending that is none of these.</summary>
    public static TotalsFile? Named(string file) => All.FirstOrDefault(f => file.EndsWith(f.Ending, StringComparison.OrdinalIgnoreCase));

    public string NameOf(SeasonTotals totals) => Plain(totals) + Ending;

    /// <summary>A name that every file system takes.</summary>
    public static string Plain(SeasonTotals totals) =>
        string.Concat($"{totals.Programme} {totals.Season} totals".Select(c => char.IsLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-'));
}
