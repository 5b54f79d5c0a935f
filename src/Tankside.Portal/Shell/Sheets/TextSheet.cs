using System.Text;
using System.Text.Unicode;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>Opens a text file: which encoding, which separator.</summary>
internal static class TextSheet
{
    private static readonly Encoding Windows = CodePagesEncodingProvider.Instance.GetEncoding(1252)!;

    /// <exception cref="NoSheetException">It is no text.</exception>
    public static SheetFile Open(byte[] content)
    {
        var (encoding, name, marked) = EncodingOf(content);
        if (!marked && content.AsSpan(0, Math.Min(content.Length, 4096)).Contains((byte)0))
        {
            throw new NoSheetException("This is not a sheet that can be read here. Save it as .xlsx or as CSV and send it again.");
        }

        using var start = Text();
        var separator = TextRows.GuessSeparator(start);
        return new SheetFile(
            say => say.Of("Read as {0} text with cells between {1}.", say.Told(name), say[NameOf(separator)]),
            [],
            () => TextRows.Read(Text(), separator));

        StreamReader Text() => new(new MemoryStream(content, writable: false), encoding, detectEncodingFromByteOrderMarks: true);
    }

    private static (Encoding Encoding, string Name, bool Marked) EncodingOf(byte[] content) => content switch
    {
        [0xEF, 0xBB, 0xBF, ..] => (Encoding.UTF8, "UTF-8", true),
        [0xFF, 0xFE, ..] => (Encoding.Unicode, "UTF-16", true),
        [0xFE, 0xFF, ..] => (Encoding.BigEndianUnicode, "UTF-16", true),
        _ => Utf8.IsValid(content) ? (Encoding.UTF8, "UTF-8", false) : (Windows, "Windows-1252 (it is not UTF-8)", false),
    };

    private static string NameOf(char separator) => separator switch
    {
        ';' => "semicolons",
        '\t' => "tabs",
        '|' => "upright lines",
        _ => "commas",
    };
}
