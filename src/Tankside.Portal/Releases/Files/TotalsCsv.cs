using System.Text;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Files;

/// <summary>
/// The season totals file: UTF-8 with a byte order mark, RFC 4180, one row a tank, numbers plain. A text that a spreadsheet would run as a
/// formula is written behind an apostrophe.
/// </summary>
public static class TotalsCsv
{
    public static string Header { get; } = string.Join(',', TotalsColumns.All.Select(c => c.Name));

    public static byte[] Write(SeasonTotals totals)
    {
        using var bytes = new MemoryStream();
        WriteAsync(totals, bytes, null, CancellationToken.None).GetAwaiter().GetResult(); // Into memory: nothing is waited for.
        return bytes.ToArray();
    }

    /// <summary>Row by row, so that the file is never whole in memory.</summary>
    public static async Task WriteAsync(SeasonTotals totals, Stream file, Action<int>? rowsWritten, CancellationToken cancel)
    {
        await using var text = new StreamWriter(file, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true), 16 * 1024, leaveOpen: true);
        await text.WriteAsync((Header + "\r\n").AsMemory(), cancel);
        for (var row = 0; row < totals.Tanks.Count; row++)
        {
            var tank = totals.Tanks[row];
            await text.WriteAsync((Line(TotalsColumns.All.Select(c => c.Of(totals, tank))) + "\r\n").AsMemory(), cancel);
            rowsWritten?.Invoke(row + 1);
        }
    }

    /// <summary>One row of values, without the line's end.</summary>
    public static string Line(IEnumerable<object?> values) =>
        string.Join(',', values.Select(v => v is string text ? Text(text) : TotalsColumns.Plain(v)));

    private static string Text(string text)
    {
        var safe = text is ['=' or '+' or '-' or '@' or '\t' or '\r' or '\n', ..] ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
