namespace Tankside.Portal.Shell.Sheets;

/// <summary>Why a row cannot be read. It is told in English where the row is made, which is before anybody knows who reads it.</summary>
public static class RowTroubles
{
    public const string NeverClosed = "A quotation mark is opened in this row and never closed.";

    public static string RowTooLong(Say? reader = null) => (reader ?? Say.InEnglish).Of("This row is longer than {0:#,0} signs.", SheetLimits.LongestRow);

    public static string CellTooLong(Say? reader = null) => (reader ?? Say.InEnglish).Of("A cell of this row is longer than {0:#,0} signs.", SheetLimits.LongestCell);

    public static string TooManyCells(Say? reader = null) => (reader ?? Say.InEnglish).Of("This row has more than {0} cells.", SheetLimits.MostColumns);

    /// <summary>The same trouble, told to somebody.</summary>
    public static string To(string trouble, Say reader) =>
        trouble == RowTooLong() ? RowTooLong(reader)
        : trouble == CellTooLong() ? CellTooLong(reader)
        : trouble == TooManyCells() ? TooManyCells(reader)
        : reader.Told(trouble);
}
