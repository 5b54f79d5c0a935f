namespace Tankside.Portal.Shell.Sheets;

/// <summary>A sheet that can be read, again and again, row by row.</summary>
/// <param name="HowReadTo">What was taken for granted in reading it, for the page, in the language of who reads it.</param>
/// <param name="Leaves">Names of a workbook's sheets; empty for a text file.</param>
/// <param name="Rows">The rows, streamed. A file that breaks off ends in a row that says so.</param>
public sealed record SheetFile(Func<Say, string> HowReadTo, IReadOnlyList<string> Leaves, Func<IEnumerable<SheetRow>> Rows)
{
    public string HowRead => HowReadTo(Say.InEnglish);

    /// <param name="leaf">Which of a workbook's sheets; the first with anything in it when null.</param>
    /// <exception cref="NoSheetException">The file is none.</exception>
    public static SheetFile Open(byte[] content, int? leaf = null) => content switch
    {
        [] => throw new NoSheetException("The file is empty."),
        { Length: > SheetLimits.MostBytes } => throw new NoSheetException($"The file is larger than {SheetLimits.MostBytes / 1024 / 1024} MB. Split the sheet and send the parts."),
        [(byte)'P', (byte)'K', ..] => WorkbookSheet.Open(content, leaf),
        [0xD0, 0xCF, 0x11, 0xE0, ..] => throw new NoSheetException("This is an old Excel file (.xls) or one with a password. Save it as .xlsx or CSV, without a password, and send that."),
        [(byte)'%', (byte)'P', (byte)'D', (byte)'F', ..] => throw new NoSheetException("This is a PDF. Send the sheet itself, as .xlsx or CSV."),
        _ => TextSheet.Open(content),
    };
}
