using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Places.Labels;

/// <summary>Draws labels: on sheets to cut apart, or one into a corner of another sheet.</summary>
public static class LabelDrawing
{
    private const int Across = 2, Down = 4;

    /// <summary>Printers leave this much of a sheet white, millimetres.</summary>
    private const double Margin = 10;

    public const int OnASheet = Across * Down;

    public static byte[] Sheets(string title, IReadOnlyList<TankLabel> labels, PaperSize paper, DateTime now) =>
        PaperDocument.Write(title, "en", now, document =>
        {
            foreach (var sheet in labels.Chunk(OnASheet))
            {
                document.Page(paper, page => Sheet(page, sheet, paper));
            }
        });

    private static void Sheet(PaperPage page, TankLabel[] labels, PaperSize paper)
    {
        var (width, height) = ((paper.Width - (2 * Margin)) / Across, (paper.Height - (2 * Margin)) / Down);
        foreach (var (at, label) in labels.Index())
        {
            var box = new Box(Margin + (at % Across * width), Margin + (at / Across * height), width, height);
            Label(page, label, box);
            Cuts(page, box, first: at % Across == 0, top: at < Across);
        }
    }

    /// <summary>Where to cut: around every label there is, each line once, so that its dashes do not run together.</summary>
    private static void Cuts(PaperPage page, Box box, bool first, bool top)
    {
        page.Line(box.Right, box.Y, box.Right, box.Bottom, 0.2, dashed: true);
        page.Line(box.X, box.Bottom, box.Right, box.Bottom, 0.2, dashed: true);
        if (first)
        {
            page.Line(box.X, box.Y, box.X, box.Bottom, 0.2, dashed: true);
        }

        if (top)
        {
            page.Line(box.X, box.Y, box.Right, box.Y, 0.2, dashed: true);
        }
    }

    /// <summary>The label of about 95 by 65 millimetres.</summary>
    private static void Label(PaperPage page, TankLabel label, Box cut)
    {
        const double code = 42;
        var box = cut.Inset(3, 2.5);
        page.Qr(label.Address.ToString(), new Box(box.X - 2, box.Y - 2, code, code));
        var side = new Box(box.X + code - 2, box.Y + 1, box.Width - code + 2, code - 4);
        var y = side.Y + page.Text(label.Code, side with { Height = 14 }, 32, bold: true);
        y += page.Text(label.School, new Box(side.X, y, side.Width, 15), 12, bold: true);
        page.Text(label.Room, new Box(side.X, y + 0.5, side.Width, side.Bottom - y), 11);

        var line = new Box(box.X + 1.5, box.Y + code - 3.5, box.Width - 3, 4.2);
        line = line with { Y = line.Y + page.Text($"Type / Escribe: {label.TypedStart}", line, 9) };
        line = line with { Y = line.Y + page.Text(label.TypedCode, line with { Height = 7.5 }, 17, bold: true) + 0.6 };
        line = line with { Y = line.Y + page.Text("Scan it and write down today’s reading.", line, 9) };
        page.Text("Escanéalo y escribe la lectura de hoy.", line, 9);
    }
}
