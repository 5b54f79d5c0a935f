using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace Tankside.Portal.Shell.Paper;

/// <summary>A document to print. It is drawn in one go and handed on as the bytes of a PDF file.</summary>
public sealed class PaperDocument
{
    public const string ContentType = "application/pdf";

    /// <summary>The library keeps its fonts in tables of the whole process; one document at a time is drawn.</summary>
    private static readonly Lock OneAtATime = new();

    private readonly PdfDocument pdf;

    static PaperDocument() => GlobalFontSettings.FontResolver = new PaperFonts();

    private PaperDocument(PdfDocument pdf) => this.pdf = pdf;

    /// <param name="language">As documents name it, for those who have it read out.</param>
    /// <param name="now">When it is drawn, UTC. The same drawing of the same time is the same file, byte for byte.</param>
    public static byte[] Write(string title, string language, DateTime now, Action<PaperDocument> draw)
    {
        lock (OneAtATime)
        {
            using var pdf = new PdfDocument();
            pdf.Info.Title = title;
            pdf.Info.Creator = "Tankside";
            pdf.Info.CreationDate = now;
            pdf.Info.ModificationDate = now;
            pdf.Language = language;
            pdf.ViewerPreferences.DisplayDocTitle = true;
            draw(new PaperDocument(pdf));
            using var bytes = new MemoryStream();
            pdf.Save(bytes);
            return ReproduciblePdf.Of(bytes.ToArray());
        }
    }

    /// <summary>Draws one page more.</summary>
    public void Page(PaperSize size, Action<PaperPage> draw)
    {
        var page = pdf.AddPage();
        (page.Width, page.Height) = (XUnit.FromMillimeter(size.Width), XUnit.FromMillimeter(size.Height));
        using var graphics = XGraphics.FromPdfPage(page);
        draw(new PaperPage(graphics));
    }
}
