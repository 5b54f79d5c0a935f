using System.Text;
using Microsoft.AspNetCore.Http;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>PDF papers: whatever is sent is refused, or written anew with at least a page and without a script.</summary>
public static class Papers
{
    public static Target Target { get; } = new("papers", Make, Read)
    {
        Words = ["%PDF-1.7", "1 0 obj", "endobj", "stream\n", "endstream", "xref", "trailer", "startxref", "<<", ">>", "[", "]", "/Type", "/Pages", "/Kids", "/Count", "/Filter", "/FlateDecode", "/Length", "1 0 R", "/ObjStm", "/Encrypt", "/Prev"],
        LongestInput = 200_000,
        MostBytesOnce = 64 << 20,
        Slice = 6, // Each is read by a process of its own.
    };

    private static byte[] Make(Dice dice)
    {
        using var document = new PdfDocument();
        document.Options.CompressContentStreams = dice.OneIn(2);
        for (var pages = 1 + dice.Below(3); pages > 0; pages--)
        {
            using var drawn = XGraphics.FromPdfPage(document.AddPage());
            for (var lines = dice.Below(20); lines > 0; lines--)
            {
                drawn.DrawLine(XPens.Black, dice.Below(500), dice.Below(500), dice.Below(500), dice.Below(500));
            }
        }

        if (dice.OneIn(2))
        {
            document.Pages[0].AddWebLink(new PdfRectangle(new XRect(1, 1, 9, 9)), "https://elsewhere.example/");
        }

        using var written = new MemoryStream();
        document.Save(written, closeStream: false);
        return written.ToArray();
    }

    private static string Read(byte[] bytes)
    {
        using var content = new MemoryStream(bytes);
        switch (Task.Run(() => RewrittenApart.OfAsync(new FormFile(content, 0, bytes.Length, "file", "paper.pdf"), CancellationToken.None)).GetAwaiter().GetResult())
        {
            case RewrittenPdf.Sheets sheets:
                Held.That(sheets.Pages is >= 1 and <= RewrittenPdf.MostPages, "A paper has no page, or too many.");
                var text = Encoding.Latin1.GetString(sheets.Pdf);
                Held.That(text.StartsWith("%PDF-", StringComparison.Ordinal), "What was written is no PDF.");
                Held.That(!text.Contains("elsewhere.example", StringComparison.Ordinal), "A link came along.");
                return $"{sheets.Pages} pages";
            case RewrittenPdf.Refused refused:
                Held.Said([refused.Why]);
                return refused.Why;
            default:
                throw new BrokenException("Neither written anew nor refused.");
        }
    }
}
