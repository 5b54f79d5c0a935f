using PdfSharp.Fonts;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// The letters on paper come with the program: a server has no fonts that one could count on. DejaVu Sans has every letter that a name
/// in the schools' languages may hold.
/// </summary>
public sealed class PaperFonts : IFontResolver
{
    public const string Family = "DejaVu Sans";

    private const string Regular = "DejaVuSans", Bold = "DejaVuSans-Bold";

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) => new(bold ? Bold : Regular);

    public byte[]? GetFont(string faceName)
    {
        using var file = typeof(PaperFonts).Assembly.GetManifestResourceStream($"{faceName}.ttf")
            ?? throw new InvalidOperationException($"the font {faceName} was not built into the program");
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    }
}
