using System.Globalization;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Releases.Files;

/// <summary>The report's pictures, drawn as shapes; every bar has its number beside it, so that no shade has to be told from another.</summary>
internal static class TotalsPdfCharts
{
    /// <summary>More rows are read in the table.</summary>
    private const int MostRows = 40;

    private const double Row = 6;

    /// <summary>A bar for each end, all on one scale.</summary>
    public static void Account(PaperFlow flow, TankBalance b)
    {
        (string Name, int Count)[] ends =
        [
            ("Came in", b.In), ("Released", b.Released), ("Still in tanks", b.StillInTank), ("Dead on arrival", b.DeadOnArrival), ("Eggs lost", b.EggLosses),
            ("Alevins lost", b.AlevinLosses), ("Fry lost", b.FryLosses), ("Put down", b.PutDown), ("Sampled", b.Sampled), ("Moved out", b.TransferredOut),
            ("Unaccounted", b.Unaccounted),
        ];
        var shown = ends.Where(e => e.Count != 0 || e.Name == "Unaccounted").ToList();
        var most = Math.Max(1, shown.Max(e => Math.Abs(e.Count)));
        flow.Text("Where every egg went", 12, bold: true, withNext: true);
        flow.Drawing(shown.Count * Row, (page, box) =>
        {
            foreach (var (end, i) in shown.Select((e, i) => (e, i)))
            {
                var y = box.Y + (i * Row);
                var bar = new Box(box.X + 54, y + 0.8, Math.Abs(end.Count) * (box.Width - 60) / most, Row - 1.8);
                page.Text(end.Name, new Box(box.X, y + 0.6, 32, Row), 9);
                page.Text(Figures.Of(end.Count), new Box(box.X + 32, y + 0.6, 19, Row), 9, bold: true, Stand.Right);
                if (end.Count > 0 && end.Name != "Unaccounted")
                {
                    page.Fill(bar, i == 0 ? 0.8 : 0.5);
                }
                else if (end.Count != 0)
                {
                    page.Frame(bar, dashed: end.Count < 0); // What nobody can explain stays empty; too many are dashed.
                }
            }
        });
    }

    /// <summary>Each group's rate as a mark on a line from 0 to 100 %, with its interval.</summary>
    public static void Survival(PaperFlow flow, string title, IReadOnlyList<TankGroup> groups)
    {
        var known = groups.Where(g => g.Pooled.Rate.Percent is not null).ToList();
        if (known.Count == 0)
        {
            return;
        }

        flow.Text(title, 12, bold: true, withNext: true);
        var shown = known.Take(MostRows).ToList();
        flow.Drawing((shown.Count * Row) + 6, (page, box) => Marks(page, box, shown));
        if (known.Count > shown.Count)
        {
            flow.Text($"{Figures.Of(known.Count - shown.Count)} more stand in the table.", 8.5);
        }
    }

    private static void Marks(PaperPage page, Box box, List<TankGroup> shown)
    {
        var (left, width, bottom) = (box.X + 86, box.Width - 92, box.Y + (shown.Count * Row));
        for (var tick = 0; tick <= 100; tick += 25)
        {
            var x = left + (width * tick / 100);
            page.Line(x, box.Y, x, bottom, 0.1);
            page.Text(tick.ToString(CultureInfo.InvariantCulture) + " %", new Box(x - 8, bottom + 0.5, 16, 5), 8, stand: Stand.Middle);
        }

        foreach (var (group, i) in shown.Select((g, i) => (g, i)))
        {
            var (y, rate) = (box.Y + (i * Row), group.Pooled.Rate);
            page.Text(group.Name.Length == 0 ? "none" : group.Name, new Box(box.X, y + 0.6, 66, Row), 8.5);
            page.Text(Figures.Percent(rate.Percent), new Box(box.X + 66, y + 0.6, 17, Row), 8.5, bold: true, Stand.Right);
            if (rate is { Low: { } low, High: { } high })
            {
                page.Line(left + (width * low / 100), y + (Row / 2), left + (width * high / 100), y + (Row / 2), 0.6);
            }

            var at = left + (width * Math.Clamp(rate.Percent!.Value, 0, 100) / 100);
            page.Fill(new Box(at - 0.9, y + (Row / 2) - 1.6, 1.8, 3.2), 1);
        }
    }
}
