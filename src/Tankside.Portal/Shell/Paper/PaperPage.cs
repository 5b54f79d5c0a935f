using System.Text;
using PdfSharp.Drawing;

namespace Tankside.Portal.Shell.Paper;

/// <summary>Where text stands in its box.</summary>
public enum Stand
{
    Left,
    Middle,
    Right,
}

/// <summary>One page, drawn in black. Places are in millimetres, letters in points.</summary>
public sealed class PaperPage(XGraphics graphics)
{
    private const double PointsPerMillimetre = 72 / 25.4;

    /// <summary>Smaller letters are not read from paper.</summary>
    private const double SmallestPoints = 6, Step = 0.5;

    /// <summary>
    /// Writes a text from the top of its box down. What does not fit is wrapped, then set smaller, and only at the smallest size cut, with
    /// a sign that there was more.
    /// </summary>
    /// <returns>The millimetres it took.</returns>
    public double Text(string text, Box box, double points, bool bold = false, Stand stand = Stand.Left)
    {
        var (font, lines) = Fit(Composed(text), box, points, bold);
        var high = font.GetHeight() / PointsPerMillimetre;
        foreach (var (line, number) in lines.Select((line, number) => (line, number)))
        {
            var shift = stand switch
            {
                Stand.Middle => (box.Width - WidthOf(line, font)) / 2,
                Stand.Right => box.Width - WidthOf(line, font),
                Stand.Left => 0,
            };
            graphics.DrawString(VisualOrder.Of(line), font, XBrushes.Black, Points(box.X + shift), Points(box.Y + (number * high)), XStringFormats.TopLeft);
        }

        return lines.Count * high;
    }

    /// <summary>The millimetres that a text takes in a column of a width, all of it, at its own size.</summary>
    public static double HeightOf(string text, double width, double points, bool bold = false)
    {
        using var measure = XGraphics.CreateMeasureContext(new XSize(2000, 2000), XGraphicsUnit.Point, XPageDirection.Downwards);
        var page = new PaperPage(measure);
        var font = FontOf(points, bold);
        return LineBreaks.Of(Composed(text), width, part => page.WidthOf(part, font), wholeWords: false)!.Count * font.GetHeight() / PointsPerMillimetre;
    }

    /// <summary>A full area; 0 is white, 1 black.</summary>
    public void Fill(Box box, double shade) => graphics.DrawRectangle(
        new XSolidBrush(XColor.FromGrayScale(1 - shade)), Points(box.X), Points(box.Y), Points(box.Width), Points(box.Height));

    public void Line(double fromX, double fromY, double toX, double toY, double millimetres = 0.25, bool dashed = false) =>
        graphics.DrawLine(Pen(millimetres, dashed), Points(fromX), Points(fromY), Points(toX), Points(toY));

    public void Frame(Box box, double millimetres = 0.25, bool dashed = false) =>
        graphics.DrawRectangle(Pen(millimetres, dashed), Points(box.X), Points(box.Y), Points(box.Width), Points(box.Height));

    /// <summary>Takes away what was drawn there.</summary>
    public void Blank(Box box) => graphics.DrawRectangle(XBrushes.White, Points(box.X), Points(box.Y), Points(box.Width), Points(box.Height));

    /// <summary>Draws a QR code with its quiet margin into a square box, as shapes: they stay sharp at any size.</summary>
    public void Qr(string text, Box box)
    {
        var modules = QrModules.Of(text);
        var size = box.Width / modules.Size;
        // One shape for the whole code: a viewer that smooths edges would leave hairlines between many.
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        foreach (var (row, from, length) in modules.DarkRuns())
        {
            path.AddRectangle(Points(box.X + (from * size)), Points(box.Y + (row * size)), Points(length * size), Points(size));
        }

        graphics.DrawPath(XBrushes.Black, path);
    }

    private (XFont Font, IReadOnlyList<string> Lines) Fit(string text, Box box, double points, bool bold)
    {
        for (var size = points; ; size -= Step)
        {
            var font = FontOf(size, bold);
            var lines = LineBreaks.Of(text, box.Width, part => WidthOf(part, font), wholeWords: size - Step >= SmallestPoints);
            var room = Math.Max(1, (int)((box.Height * PointsPerMillimetre / font.GetHeight()) + 0.01));
            if (lines is not null && lines.Count <= room)
            {
                return (font, lines);
            }

            if (size - Step < SmallestPoints)
            {
                return (font, LineBreaks.Cut(lines!, room, box.Width, part => WidthOf(part, font)));
            }
        }
    }

    private static string Composed(string text) => PaperLetters.Shown(JoinedLetters.Of(Sheets.Headings.Sound(text).Normalize(NormalizationForm.FormC)));

    private static XFont FontOf(double points, bool bold) => new(PaperFonts.Family, points, bold ? XFontStyleEx.Bold : XFontStyleEx.Regular);

    private double WidthOf(string text, XFont font) => graphics.MeasureString(text, font).Width / PointsPerMillimetre;

    private static XPen Pen(double millimetres, bool dashed)
    {
        var pen = new XPen(XColors.Black, Points(millimetres));
        if (dashed)
        {
            pen.DashPattern = [8, 6];
        }

        return pen;
    }

    private static double Points(double millimetres) => millimetres * PointsPerMillimetre;
}
