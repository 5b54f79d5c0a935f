using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using ZXing;
using ZXing.Common;

namespace Tankside.Portal.Tests.Shell;

/// <summary>A file to print as somebody sees it who holds the paper: its words, and where its QR codes lead.</summary>
public sealed class PrintedPdf
{
    private const double PixelsPerPoint = 4, WhiteAround = 12;

    private PrintedPdf(IReadOnlyList<PrintedPage> pages, string? title) => (Pages, Title) = (pages, title);

    public IReadOnlyList<PrintedPage> Pages { get; }

    public string? Title { get; }

    public string Text => string.Join('\n', Pages.Select(p => p.Text));

    public IEnumerable<string> Codes => Pages.SelectMany(p => p.Codes);

    public static PrintedPdf Read(byte[] bytes)
    {
        using var document = PdfDocument.Open(bytes);
        return new PrintedPdf([.. document.GetPages().Select(Look)], document.Information.Title);
    }

    public static async Task<PrintedPdf> GetAsync(HttpClient client, string address)
    {
        using var answer = await client.GetAsync(address);
        Assert.True(answer.IsSuccessStatusCode, $"{address}: {(int)answer.StatusCode}");
        Assert.Equal("application/pdf", answer.Content.Headers.ContentType!.MediaType);
        return Read(await answer.Content.ReadAsByteArrayAsync());
    }

    private static PrintedPage Look(Page page)
    {
        var words = page.GetWords().Select(w => new PrintedWord(w.Text, w.BoundingBox.Left, w.BoundingBox.Right, page.Height - w.BoundingBox.Top, page.Height - w.BoundingBox.Bottom)).ToList();
        return new PrintedPage(page.Width, page.Height, words, [.. page.Paths.Where(p => p.IsFilled && p.Count > 50).Select(p => Decode([.. p.Select(s => s.GetBoundingRectangle()!.Value)]))]);
    }

    /// <summary>Draws the dark shapes as dots and lets a reader of QR codes look at them, as a phone would.</summary>
    private static string Decode(IReadOnlyList<UglyToad.PdfPig.Core.PdfRectangle> dark)
    {
        var (left, right, bottom, top) = (dark.Min(r => r.Left), dark.Max(r => r.Right), dark.Min(r => r.Bottom), dark.Max(r => r.Top));
        var width = (int)((right - left + (2 * WhiteAround)) * PixelsPerPoint);
        var height = (int)((top - bottom + (2 * WhiteAround)) * PixelsPerPoint);
        var dots = new byte[width * height];
        Array.Fill(dots, (byte)255);
        foreach (var shape in dark)
        {
            for (var y = Pixel(top - shape.Top); y < Pixel(top - shape.Bottom); y++)
            {
                for (var x = Pixel(shape.Left - left); x < Pixel(shape.Right - left); x++)
                {
                    dots[(y * width) + x] = 0;
                }
            }
        }

        var source = new RGBLuminanceSource(dots, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        // The reader guesses by sight where a code begins and now and then misses; then it is told that there is nothing else in the picture.
        return Seen(DecodeHintType.TRY_HARDER) ?? Seen(DecodeHintType.PURE_BARCODE) ?? "(no code)";

        string? Seen(DecodeHintType hint) => new ZXing.QrCode.QRCodeReader()
            .decode(new BinaryBitmap(new HybridBinarizer(source)), new Dictionary<DecodeHintType, object> { [hint] = true })?.Text;

        static int Pixel(double points) => (int)Math.Round((points + WhiteAround) * PixelsPerPoint);
    }
}

/// <summary>One page, in points.</summary>
public sealed record PrintedPage(double Width, double Height, IReadOnlyList<PrintedWord> Words, IReadOnlyList<string> Codes)
{
    public string Text => string.Join(' ', Words.Select(w => w.Text));
}

/// <summary>A word and where it stands, in points from the upper left corner.</summary>
public sealed record PrintedWord(string Text, double Left, double Right, double Top, double Bottom);
