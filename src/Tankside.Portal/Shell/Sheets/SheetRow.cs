namespace Tankside.Portal.Shell.Sheets;

/// <summary>One row of a sheet, as text, whatever the file's format.</summary>
/// <param name="Number">The number that a spreadsheet shows beside it.</param>
/// <param name="Trouble">Why the row cannot be read; null when it can.</param>
public sealed record SheetRow(int Number, IReadOnlyList<string> Cells, string? Trouble = null)
{
    public bool IsBlank => Trouble is null && Cells.All(string.IsNullOrWhiteSpace);

    /// <summary>The cell of a column as people read it; empty beyond the row's end.</summary>
    public string this[int column] => column < Cells.Count ? Cells[column].Trim() : "";
}

/// <summary>What a sheet may hold at most, so that no file can fill the machine.</summary>
public static class SheetLimits
{
    public const int MostBytes = 20 * 1024 * 1024;

    /// <summary>Of a workbook's parts once they are unpacked.</summary>
    public const long MostUnpackedBytes = 200L * 1024 * 1024;

    /// <summary>Parts that a workbook is packed of.</summary>
    public const int MostParts = 5_000;

    /// <summary>Rows with anything in them.</summary>
    public const int MostRows = 200_000;

    /// <summary>Rows, the blank ones counted: as many as a spreadsheet has.</summary>
    public const int MostLines = 1_048_576;

    public const int MostColumns = 60;

    public const int LongestCell = 4_000;

    /// <summary>Signs in one row of a text file; a quotation that is never closed ends here at the latest.</summary>
    public const int LongestRow = 64_000;

    /// <summary>Signs on the lines over which a quotation goes on; each of them is looked at again when it is never closed.</summary>
    public const int LongestQuoted = 3 * LongestCell;

    /// <summary>Sheets of a workbook that are looked at; the others are as if they were not there.</summary>
    public const int MostLeaves = 100;

    /// <summary>Elements within elements of a workbook’s part; a real one has a dozen.</summary>
    public const int MostDepth = 64;

    /// <summary>Texts that a workbook keeps beside its cells, in signs.</summary>
    public const int MostSharedText = 8_000_000;
}

/// <summary>A file that is no sheet we can read, and why, in words for whoever sent it.</summary>
public sealed class NoSheetException(string message) : Exception(message);
