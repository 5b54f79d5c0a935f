using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Flags.Cards;

/// <summary>Draws cards, each on one page, black on white. The body is set as large as the page allows: nothing of it is left out.</summary>
public sealed class CardDrawing(PaperSize paper)
{
    private const double Margin = 12, Gutter = 7, CallHigh = 32, CodeSide = 36, TypedWidth = 62, Indent = 5.5;

    private static readonly double[] Sizes = [12, 11.5, 11, 10.5, 10, 9.5, 9, 8.5, 8, 7.5, 7, 6.5, 6];

    /// <summary>Cards of many tanks say much the same: each text is measured once.</summary>
    private readonly Dictionary<(string Text, double Width, double Points, bool Bold), double> measured = [];

    private double Width => paper.Width - (2 * Margin);

    private double Foot => paper.Height - Margin - CallHigh - 3;

    public byte[] Write(string title, string language, IReadOnlyList<CardSheet> cards, DateTime now) => PaperDocument.Write(title, language, now, document =>
    {
        foreach (var card in cards)
        {
            document.Page(paper, page => Draw(page, card));
        }
    });

    private void Draw(PaperPage page, CardSheet card)
    {
        var top = Heading(page, card);
        var column = (Width - ((card.Columns - 1) * Gutter)) / card.Columns;
        var words = ClassWords.Named(card.Language)!;
        var body = Sizes.Select(points => Placed(card, column, top, points, words)).First(b => b.Fits || b.Points == Sizes[^1]);
        foreach (var (block, x, y) in body.Blocks)
        {
            block.Draw(page, x, y);
        }

        Call(page, card);
    }

    /// <summary>Returns where the body begins.</summary>
    private double Heading(PaperPage page, CardSheet card)
    {
        var wide = card.Code is null ? Width : Width - CodeSide - TypedWidth - 4;
        var y = Margin - 1.0;
        y += page.Text(card.Title, new Box(Margin, y, wide, 20), 21, bold: true) + 0.5;
        y += page.Text(card.Where, new Box(Margin, y, wide, 11), 12, bold: true) + 0.5;
        y += page.Text(card.Printed, new Box(Margin, y, wide, 9), 9) + 2;
        if (card.Code is { } code)
        {
            Code(page, code);
            y = Math.Max(y, Margin + CodeSide + 2);
        }

        page.Line(Margin, y, Margin + Width, y, 0.5);
        y += 1.5;
        y += page.Text(card.Answer, new Box(Margin, y, Width, 17), 14, bold: true) + 2;
        page.Line(Margin, y, Margin + Width, y, 0.5);
        return y + 2;
    }

    private void Code(PaperPage page, CardCode code)
    {
        var corner = new Box(Margin + Width - CodeSide, Margin - 1, CodeSide, CodeSide);
        if (code.Address is not { } address)
        {
            var room = new Box(corner.X - 26, corner.Y, CodeSide + 26, CodeSide);
            page.Frame(room, 0.3, dashed: true);
            page.Text(code.Said, room.Inset(4, 13), 12, stand: Stand.Middle);
            return;
        }

        page.Qr(address.ToString(), corner);
        var beside = new Box(corner.X - TypedWidth - 1, corner.Y + 4, TypedWidth, CodeSide);
        var at = beside.Y + page.Text(code.Said, beside with { Height = 10 }, 11);
        at += page.Text(code.TypedStart, new Box(beside.X, at + 1, beside.Width, 8), 9) + 1;
        page.Text(code.TypedCode, new Box(beside.X, at, beside.Width, 8), 15, bold: true);
    }

    private void Call(PaperPage page, CardSheet card)
    {
        var box = new Box(Margin, paper.Height - Margin - CallHigh, Width, CallHigh);
        page.Frame(box, 0.7);
        var inner = box.Inset(3, 2);
        var y = inner.Y + page.Text(card.Call.Heading, inner with { Height = 6 }, 11, bold: true) + 0.5;
        foreach (var line in card.Call.Lines)
        {
            y += page.Text(line, new Box(inner.X, y, inner.Width, 16.0 / card.Call.Lines.Count), 13, bold: true);
        }

        page.Text(card.AgencyWins, new Box(inner.X, inner.Bottom - 4, inner.Width, 4.5), 8.5);
    }

    /// <summary>The body at one size, filled column by column; a heading stays with its first line.</summary>
    private Body Placed(CardSheet card, double width, double top, double points, ClassWords words)
    {
        var (blocks, y, column) = (new List<(Block, double, double)>(), top, 0);
        foreach (var part in card.Parts)
        {
            var head = part.Heading.Length == 0 ? null : HeadingOf(part.Heading, width, points + 1.5);
            foreach (var (number, line) in part.Lines.Index())
            {
                var block = LineOf(part.Look, line, number + 1, width, points, words);
                var before = number == 0 && head is not null ? head.High : 0;
                if (y + before + block.High > Foot && y > top)
                {
                    (column, y) = (column + 1, top);
                }

                var x = Margin + (column * (width + Gutter));
                if (before > 0)
                {
                    blocks.Add((head!, x, y));
                }

                blocks.Add((block, x, y + before));
                y += before + block.High;
            }

            y += points * 0.2;
        }

        return new Body(points, column < card.Columns, blocks);
    }

    private Block HeadingOf(string heading, double width, double points)
    {
        var high = HeightOf(heading, width, points, bold: true);
        return new Block(high + 1, (page, x, y) => page.Text(heading, new Box(x, y, width, high + 0.5), points, bold: true));
    }

    private Block LineOf(PartLook look, string line, int number, double width, double points, ClassWords words)
    {
        var asked = look is PartLook.Ticks or PartLook.Blanks ? 62 : 0;
        var wide = width - (asked > 0 ? asked : Indent);
        var high = HeightOf(line, wide, points, bold: false);
        return new Block(Math.Max(high, asked > 0 ? 7 : 0) + (points * 0.1), (page, x, y) =>
        {
            page.Text(line, new Box(asked > 0 ? x : x + Indent, y, wide, high + 0.5), points);
            switch (look)
            {
                case PartLook.Ticks:
                    Tick(page, x + width - asked + 4, y, words["yes"]);
                    Tick(page, x + width - (asked / 2.0) + 4, y, words["no"]);
                    break;
                case PartLook.Blanks:
                    page.Line(x + width - asked + 4, y + 5.5, x + width, y + 5.5);
                    break;
                case PartLook.Steps:
                    page.Text($"{number}.", new Box(x, y, Indent, high + 0.5), points, bold: true);
                    break;
                case PartLook.Points:
                    page.Text("•", new Box(x + 1, y, Indent, high + 0.5), points);
                    break;
            }
        });
    }

    private static void Tick(PaperPage page, double x, double y, string word)
    {
        const double box = 4.5;
        page.Frame(new Box(x, y + 0.5, box, box), 0.35);
        page.Text(word, new Box(x + box + 1.5, y, 18, box + 2), 11);
    }

    private double HeightOf(string text, double width, double points, bool bold)
    {
        if (!measured.TryGetValue((text, width, points, bold), out var high))
        {
            measured[(text, width, points, bold)] = high = PaperPage.HeightOf(text, width, points, bold);
        }

        return high;
    }

    private sealed record Block(double High, Action<PaperPage, double, double> Draw);

    private sealed record Body(double Points, bool Fits, List<(Block Block, double X, double Y)> Blocks);
}
