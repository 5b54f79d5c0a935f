using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// The library names a document and its parts of fonts at random. Names worked out from the contents take their place, letter for letter,
/// so that equal contents are equal bytes.
/// </summary>
internal static partial class ReproduciblePdf
{
    public static byte[] Of(byte[] pdf)
    {
        // One sign a byte, so that every place in the file stays where its table says.
        var text = Encoding.Latin1.GetString(pdf);
        var fonts = new Dictionary<string, string>(StringComparer.Ordinal);
        text = FontTag().Replace(text, m => fonts.TryGetValue(m.Value, out var name) ? name : fonts[m.Value] = Tag(fonts.Count));
        text = Ids().Replace(text, new string('0', 32));
        text = Uuids().Replace(text, Guid.Empty.ToString());
        var id = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(text)).AsSpan(0, 16));
        return Encoding.Latin1.GetBytes(Ids().Replace(Uuids().Replace(text, new Guid(Convert.FromHexString(id)).ToString()), id));
    }

    private static string Tag(int number) => "TANKS" + (char)('A' + (number % 26));

    [GeneratedRegex(@"(?<=/(?:FontName|BaseFont)/)[A-Z]{6}(?=\+)")]
    private static partial Regex FontTag();

    [GeneratedRegex(@"(?<=/ID\[<|/ID\[<[0-9A-F]{32}><)[0-9A-F]{32}(?=>)")]
    private static partial Regex Ids();

    [GeneratedRegex(@"(?<=ID>uuid:)[0-9a-f-]{36}(?=</xmpMM)")]
    private static partial Regex Uuids();
}
