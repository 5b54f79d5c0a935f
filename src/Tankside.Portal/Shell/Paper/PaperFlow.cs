using System.Globalization;

namespace Tankside.Portal.Shell.Paper;

/// <summary>A column of a table on paper.</summary>
/// <param name="Head">What stands over it.</param>
/// <param name="Millimetres">How wide.</param>
/// <param name="Number">True when its cells stand to the right.</param>
public sealed record PaperColumn(string Head, double Millimetres, bool Number = false);

/// <summary>Text, tables and drawings one under the other, over as many pages as they take. No text is cut: a cell is as high as it needs.</summary>
public sealed class PaperFlow(PaperSize size, double margin)
{
    private const double FooterPoints = 8, Gutter = 2;

    private readonly List<Block> blocks = [];

    public double Width => size.Width - (2 * margin);

    private double Foot => size.Height - margin - 6;

    public void Text(string text, double points, bool bold = false, double after = 2, bool withNext = false)
    {
        var high = PaperPage.HeightOf(text, Width, points, bold);
        blocks.Add(new Block(high + after, (page, y) => page.Text(text, new Box(margin, y, Width, high + 1), points, bold), withNext));
    }

    /// <param name="draw">Gets the upper edge of its place.</param>
    public void Drawing(double high, Action<PaperPage, Box> draw) =>
        blocks.Add(new Block(high + 3, (page, y) => draw(page, new Box(margin, y, Width, high)), false));

    public void Table(IReadOnlyList<PaperColumn> columns, IEnumerable<IReadOnlyList<string>> rows, double points = 8)
    {
        var head = Row(columns, [.. columns.Select(c => c.Head)], points, bold: true);
        blocks.Add(head);
        blocks.AddRange(rows.Select(cells => Row(columns, cells, points, bold: false) with { RepeatedHead = head }));
        blocks.Add(new Block(4, (_, _) => { }, false));
    }

    public void WriteTo(PaperDocument document, string footer)
    {
        var pages = Paginated();
        foreach (var (page, number) in pages.Select((p, i) => (p, i + 1)))
        {
            document.Page(size, paper =>
            {
                foreach (var (block, y) in page)
                {
                    block.Draw(paper, y);
                }

                var counted = string.Create(CultureInfo.InvariantCulture, $"page {number} of {pages.Count}");
                paper.Text(footer, new Box(margin, size.Height - margin - 1, Width - 32, 7), FooterPoints);
                paper.Text(counted, new Box(size.Width - margin - 30, size.Height - margin - 1, 30, 5), FooterPoints, stand: Stand.Right);
            });
        }
    }

    private List<List<(Block Block, double Y)>> Paginated()
    {
        List<List<(Block Block, double Y)>> pages = [[]];
        var y = margin;
        for (var i = 0; i < blocks.Count; i++)
        {
            var needed = blocks[i].Height + (blocks[i].WithNext && i + 1 < blocks.Count ? blocks[i + 1].Height + (blocks[i + 1].WithNext && i + 2 < blocks.Count ? blocks[i + 2].Height : 0) : 0);
            if (y + needed > Foot && pages[^1].Count > 0)
            {
                pages.Add([]);
                y = margin;
                if (blocks[i].RepeatedHead is { } head)
                {
                    pages[^1].Add((head, y));
                    y += head.Height;
                }
            }

            pages[^1].Add((blocks[i], y));
            y += blocks[i].Height;
        }

        return pages;
    }

    private Block Row(IReadOnlyList<PaperColumn> columns, IReadOnlyList<string> cells, double points, bool bold)
    {
        var high = columns.Zip(cells, (column, cell) => PaperPage.HeightOf(cell, column.Millimetres - Gutter, points, bold)).Max() + 1.2;
        return new Block(high, Draw, WithNext: bold);

        void Draw(PaperPage page, double y)
        {
            var x = margin;
            foreach (var (column, cell) in columns.Zip(cells))
            {
                page.Text(cell, new Box(x, y + 0.6, column.Millimetres - Gutter, high + 1), points, bold, column.Number ? Stand.Right : Stand.Left);
                x += column.Millimetres;
            }

            page.Line(margin, y + high, x - Gutter, y + high, bold ? 0.3 : 0.1);
        }
    }

    private sealed record Block(double Height, Action<PaperPage, double> Draw, bool WithNext)
    {
        public Block? RepeatedHead { get; init; }
    }
}
