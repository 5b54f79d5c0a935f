using Tankside.Hatchery.Kit;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Kit.Loans;

/// <summary>Draws the loan agreement: what is lent, on which terms, the cautions, and lines to sign.</summary>
internal sealed class LoanDrawing
{
    private const double Margin = 16, RowHigh = 7;

    private static readonly string[] Terms =
    [
        "The kit stays the property of the programme or of the owner named above, and comes back at the end of the season, cleaned and dry, on a day agreed with the coordinator.",
        "It stays in this room. Nobody moves it, lends it on, or opens a chiller: the cooling circuit is for a licensed technician.",
        "A fault is told to the programme the same day. The programme repairs or swaps what fails in ordinary use; who pays for loss or misuse is agreed in the line below.",
        "The programme may look at the kit within school hours, and may take it back and stop the eggs where kit or fish are in danger.",
    ];

    private static readonly string[] Cautions =
    [
        "Mains and water: a ground-fault outlet, a drip loop in every cord, no daisy-chained strips, cords off the floor. Only adults touch plugs.",
        "Lifting: a full tank of 55 gallons weighs about 600 lb (270 kg) and is never moved with water in it. Two adults lift an empty tank or a chiller.",
        "A chiller breathes: a hand’s width from the wall, its grille free of dust. After transport it stands upright for a day before it is switched on.",
        "Fish, eggs, tank water and gravel go nowhere but where the permit says. Where the agency or the school district says otherwise, do as they say.",
    ];

    private readonly Loan loan;
    private readonly PaperPage page;
    private readonly Say say;
    private readonly double width, bottom;
    private double y = Margin;

    private LoanDrawing(Loan loan, PaperPage page, PaperSize size, Say say) =>
        (this.loan, this.page, this.say, width, bottom) = (loan, page, say, size.Width - (2 * Margin), size.Height - Margin);

    public static byte[] Write(Loan loan, PaperSize size, DateTime now, Say say) =>
        PaperDocument.Write(say.Of("Loan agreement, {0}", loan.TankCode), say.Language, now, document =>
        {
            // What does not fit below the heading of the first page goes on further ones; the terms stand on the last.
            var chunks = loan.Kit.Chunk(12).DefaultIfEmpty([]).ToList();
            foreach (var (number, chunk) in chunks.Index())
            {
                document.Page(size, page => new LoanDrawing(loan, page, size, say).Draw(chunk, number, chunks.Count));
            }
        });

    private void Draw(KitItem[] kit, int number, int of)
    {
        Put(say["Loan of aquarium kit"], 20, bold: true);
        Put(say.Of("{0} lends to {1}, {2}, for tank {3} ({4} litres).", loan.Programme, loan.School, loan.Room, loan.TankCode, KitWords.Figure(loan.Litres, "0")) + (of > 1 ? $" {say.Of("Page {0} of {1}", number + 1, of)}." : ""), 11);
        Put(say.Of("Printed {0}. From: ____ /____ /________   Until: ____ /____ /________", loan.Day), 11);
        y += 3;
        Table(kit);
        if (number < of - 1)
        {
            return;
        }

        y += 2;
        Put(say["Terms"], 12, bold: true);
        Points(Terms);
        Put(say["Who pays for loss or misuse, and insurance, if any:"] + " ______________________________________________________", 9.5);
        y += 2;
        Put(say["Cautions"], 12, bold: true);
        Points(Cautions);
        Sign();
    }

    private void Table(KitItem[] kit)
    {
        double[] columns = [0, 0.17, 0.38, 0.72, 0.86];
        Row(columns, [say["What"], say["Serial"], say["Make"], say["Condition"], say["Value"]], bold: true);
        page.Line(Margin, y, Margin + width, y, 0.4);
        foreach (var item in kit)
        {
            var owner = item.Owner is null ? "" : $" ({item.Owner})";
            Row(columns, [KitWords.Capital(say[KitWords.Of(item.Kind)]), item.Serial, item.Make + owner, say[KitWords.Of(item.Condition)], ""], bold: false);
            page.Line(Margin, y, Margin + width, y, 0.15);
        }

        // Lines for what has no serial: stand, lid, hoses, test kit.
        for (var blank = 0; blank < 3; blank++)
        {
            y += RowHigh;
            page.Line(Margin, y, Margin + width, y, 0.15);
        }
    }

    private void Row(double[] columns, string[] cells, bool bold)
    {
        for (var i = 0; i < cells.Length; i++)
        {
            var right = i + 1 < columns.Length ? columns[i + 1] : 1;
            page.Text(cells[i], new Box(Margin + (columns[i] * width), y + 1, ((right - columns[i]) * width) - 2, RowHigh - 1), 9.5, bold);
        }

        y += RowHigh;
    }

    private void Points(string[] points)
    {
        foreach (var (i, point) in points.Index())
        {
            page.Text($"{i + 1}.", new Box(Margin, y, 6, 5), 9.5);
            y += page.Text(say[point], new Box(Margin + 6, y, width - 6, 20), 9.5) + 0.8;
        }
    }

    private void Sign()
    {
        var (half, line) = ((width - 10) / 2, Math.Min(y + 16, bottom - 18));
        foreach (var (i, who) in new[] { say["For the school (head): name, signature, day"], say["For the programme: name, signature, day"] }.Index())
        {
            var x = Margin + (i * (half + 10));
            page.Line(x, line, x + half, line);
            page.Text(who, new Box(x, line + 1, half, 5), 9);
            page.Line(x, line + 14, x + half, line + 14);
            page.Text(say["Came back complete: name, signature, day"], new Box(x, line + 15, half, 5), 9);
        }
    }

    private void Put(string text, double points, bool bold = false) => y += page.Text(text, new Box(Margin, y, width, 20), points, bold) + 1;
}
