using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>The printed sheets of a run: for each driver the round with a line to fill in at every stop, and how to temper.</summary>
internal sealed class RunSheetDrawing(RunView view, RunPeople people, Uri portal, PaperSize size)
{
    private const double Margin = 12, RowHigh = 27, HeadHigh = 34, FootHigh = 47;

    private double Width => size.Width - (2 * Margin);

    public byte[] Write() => PaperDocument.Write($"{view.Run.Name}, {view.Day}", "en", view.Now, paper =>
    {
        var drivers = view.Drivers.Where(d => d.OutAt is null && view.RoundOf(d).Count > 0).ToList();
        if (drivers.Count == 0)
        {
            paper.Page(size, page => page.Text("Nobody has a round in this run yet. Plan it, then print the sheets.", new Box(Margin, Margin, Width, 20), 12));
        }

        foreach (var driver in drivers)
        {
            var rows = (int)((size.Height - (2 * Margin) - HeadHigh - FootHigh) / RowHigh);
            foreach (var (index, stops) in view.RoundOf(driver).Chunk(rows).Index())
            {
                paper.Page(size, page => Draw(page, driver, stops, index + 1));
            }
        }
    });

    private void Draw(PaperPage page, RunDriver driver, IReadOnlyList<StopView> stops, int sheet)
    {
        var depot = view.Places.Single(p => p.Id == driver.DepotId);
        var link = new Uri(portal, $"run/{driver.Code}").ToString();
        page.Qr(link, new Box(size.Width - Margin - 30, Margin, 30, 30));
        page.Text($"{view.Run.Name}, driver {driver.Number}: {driver.Name}", new Box(Margin, Margin, Width - 34, 8), 15, bold: true);
        page.Text($"{view.Day}. Leave {depot.Name} at {RunView.Time(driver.Leaves)}, back about {RunView.Time(driver.Back)}.", new Box(Margin, Margin + 8, Width - 34, 6), 10.5);
        page.Text(
            $"{RunWords.Eggs(view.RoundOf(driver).Sum(s => s.Stop.Eggs))} aboard. No pack longer than {view.Run.LongestOut} minutes on the way. In trouble: {RunPeople.Reach(people.Coordinator)}.",
            new Box(Margin, Margin + 14, Width - 34, 10), 10.5);
        page.Text($"Tick on the phone by the code, or here. Sheet {sheet}.", new Box(Margin, Margin + 25, Width - 34, 5), 9);
        var y = Margin + HeadHigh;
        foreach (var stop in stops)
        {
            DrawStop(page, stop, new Box(Margin, y, Width, RowHigh));
            y += RowHigh;
        }

        page.Line(Margin, y, Margin + Width, y, 0.5);
        page.Text("At the tank", new Box(Margin, y + 2, Width, 5), 10.5, bold: true);
        var line = y + 7.5;
        foreach (var (index, step) in Tempering.Steps.Index())
        {
            line += page.Text($"{index + 1}. {step}", new Box(Margin, line, Width, 5), 9);
        }

        line += page.Text(Tempering.NotCold, new Box(Margin, line, Width, 9), 9);
        page.Text(Tempering.Caution, new Box(Margin, line, Width, 9), 9, bold: true);
    }

    private void DrawStop(PaperPage page, StopView stop, Box row)
    {
        page.Line(row.X, row.Y, row.Right, row.Y, 0.5);
        page.Frame(new Box(row.X, row.Y + 2, 5, 5), 0.4);
        page.Text($"{RunView.Time(stop.Stop.Begins)}–{RunView.Time(stop.Stop.Ends)}", new Box(row.X + 7, row.Y + 1.5, 30, 6), 12, bold: true);
        var where = stop.Stop.ToHolding ? $"{view.Holding?.Name ?? "Holding tank"} (not ready: {stop.Name})" : stop.Name;
        page.Text($"{stop.Stop.Place}. {where}", new Box(row.X + 38, row.Y + 1.5, row.Width - 38, 6), 12, bold: true);
        page.Text(
            $"{stop.Tank.Code}: {RunWords.Eggs(stop.Stop.Eggs)}, lot {stop.Lot.Code}, {stop.Stop.Visit.Word()}. Adult: {people.AdultsAt(stop.School.Id)}",
            new Box(row.X + 38, row.Y + 7.5, row.Width - 38, 5), 9.5);
        if (!stop.Stop.ToHolding && stop.School.DoorNotes is { } door)
        {
            page.Text($"Door: {door}", new Box(row.X + 38, row.Y + 12, row.Width - 38, 6), 9);
        }

        page.Text(
            "Time ________  Box ______°  Tank ______°  Minutes ______  Count _______ how ________  Dead ______  Received by ______________",
            new Box(row.X, row.Y + 19, row.Width, 6), 9.5);
    }
}
