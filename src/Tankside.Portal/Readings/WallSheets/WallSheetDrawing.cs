using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Readings.WallSheets;

/// <summary>
/// Draws a week's sheet: one page lying on its long side, black on white, large enough to write with a felt pen. Nobody is asked to sign.
/// </summary>
public sealed class WallSheetDrawing(WallSheet sheet, ClassWords words, PaperSize standing)
{
    private const double Margin = 11, Header = 35, Footer = 11, Questions = 57, Days = 12, Top = Margin + Header + Days;

    private readonly PaperSize paper = standing.Turned;

    private double Column => (paper.Width - (2 * Margin) - Questions) / sheet.Days.Count;

    private double Bottom => paper.Height - Margin - Footer;

    /// <summary>The rows with how many shares of the height each takes.</summary>
    private IReadOnlyList<(string Question, double Shares, Action<PaperPage, Box> Cell)> Rows =>
    [
        (words["sheet.time"], 1, (_, _) => { }),
        (words["water"], 1.6, Temperature),
        (words["moving"], 1, YesOrNo),
        (words["bubbles"], 1, YesOrNo),
        (words["levelOk"], 1, YesOrNo),
        (words["clear"], 1, YesOrNo),
        (words["iceOnCoil"], 1, YesOrNo),
        (words["sheet.dead"], 1.5, (_, _) => { }),
        (words["note"], 2.4, (_, _) => { }),
    ];

    public byte[] Write(DateTime now) => PaperDocument.Write(
        words.Of("sheet.title", sheet.Code), words.Language, now, document => document.Page(paper, Draw));

    private void Draw(PaperPage page)
    {
        Heading(page);
        Table(page);
        page.Text(
            $"{words["caution"]} {words["sheet.send"]}", new Box(Margin, Bottom + 3, paper.Width - (2 * Margin), Footer - 2), 12, bold: true);
    }

    private void Heading(PaperPage page)
    {
        const double code = 34, typed = 58;
        var left = new Box(Margin, Margin - 1, paper.Width - (2 * Margin) - code - typed - 4, Header - 3);
        var monday = sheet.Days[0].Day;
        var y = left.Y + page.Text(words.Of("sheet.title", sheet.Code), left with { Height = 20 }, 24, bold: true);
        y += page.Text($"{sheet.School}, {sheet.Room}", new Box(left.X, y, left.Width, 12), 14);
        page.Text(words.Of("sheet.week", words.Day(monday), monday.Year), new Box(left.X, y + 1, left.Width, left.Bottom - y - 1), 14, bold: true);

        var corner = new Box(paper.Width - Margin - code, Margin - 1, code, code);
        if (sheet.Label is not { } label)
        {
            var room = new Box(corner.X - typed + code - 8, corner.Y, typed + 8, code);
            page.Frame(room, 0.3, dashed: true);
            page.Text(words["sheet.label"], room.Inset(4, 13), 12, stand: Stand.Middle);
            return;
        }

        page.Qr(label.Address.ToString(), corner);
        var beside = new Box(corner.X - typed - 1, corner.Y + 4, typed, code);
        var at = beside.Y + page.Text(words["sheet.scan"], beside with { Height = 10 }, 11);
        at += page.Text(label.TypedStart, new Box(beside.X, at + 1, beside.Width, 8), 9) + 1;
        page.Text(label.TypedCode, new Box(beside.X, at, beside.Width, 8), 15, bold: true);
    }

    private void Table(PaperPage page)
    {
        var share = (Bottom - Top) / Rows.Sum(r => r.Shares);
        var (left, right, y) = (Margin, paper.Width - Margin, Top);
        page.Line(left, Top - Days, right, Top - Days, 0.5);
        foreach (var (question, shares, cell) in Rows)
        {
            page.Line(left, y, right, y, y == Top ? 0.5 : 0.25);
            page.Text(question, new Box(left + 1.5, y + 1.2, Questions - 3, (shares * share) - 1.6), 11, bold: true);
            foreach (var (i, _) in sheet.Days.Index().Where(d => d.Item.Closed is null))
            {
                cell(page, new Box(left + Questions + (i * Column), y, Column, shares * share));
            }

            y += shares * share;
        }

        page.Line(left, Bottom, right, Bottom, 0.5);
        page.Line(left, Top - Days, left, Bottom, 0.5);
        foreach (var (i, day) in sheet.Days.Index())
        {
            var column = new Box(left + Questions + (i * Column), Top - Days, Column, Bottom - Top + Days);
            page.Line(column.X, column.Y, column.X, Bottom, 0.5);
            page.Text(words.Day(day.Day), new Box(column.X + 1, column.Y + 1, column.Width - 2, Days - 1.5), 12, bold: true, stand: Stand.Middle);
            if (day.Closed is { } why)
            {
                Strike(page, new Box(column.X, Top, Column, Bottom - Top), why);
            }
        }

        page.Line(right, Top - Days, right, Bottom, 0.5);
    }

    /// <summary>A closed day: nobody is to fill it in, and nobody wonders later why it is empty.</summary>
    private void Strike(PaperPage page, Box day, string why)
    {
        var said = day with { Height = 24 };
        page.Blank(day.Inset(0.4));
        page.Text(words["sheet.closed"], new Box(said.X + 1, said.Y + 2, said.Width - 2, 11), 12, bold: true, stand: Stand.Middle);
        page.Text(why, new Box(said.X + 1, said.Y + 13, said.Width - 2, 10), 10, stand: Stand.Middle);
        page.Line(day.X + 2, said.Bottom, day.Right - 2, day.Bottom - 2, 0.5);
        page.Line(day.Right - 2, said.Bottom, day.X + 2, day.Bottom - 2, 0.5);
    }

    private void YesOrNo(PaperPage page, Box cell)
    {
        Tick(page, cell, 0, words["yes"]);
        Tick(page, cell, 1, words["no"]);
    }

    private static void Temperature(PaperPage page, Box cell)
    {
        var half = cell with { Y = cell.Y + (cell.Height / 2), Height = cell.Height / 2 };
        page.Line(cell.X + 4, half.Y + 0.5, cell.Right - 4, half.Y + 0.5);
        Tick(page, half, 0, "°F");
        Tick(page, half, 1, "°C");
    }

    private static void Tick(PaperPage page, Box cell, int place, string word)
    {
        const double box = 4.5;
        var x = cell.X + 4 + (place * (cell.Width - 4) / 2);
        var y = cell.Y + ((cell.Height - box) / 2);
        page.Frame(new Box(x, y, box, box), 0.35);
        page.Text(word, new Box(x + box + 1.2, y - 0.4, (cell.Width / 2) - box - 3, box + 1.5), 11);
    }
}
