using System.Globalization;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Ledger;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Releases.Files;

/// <summary>
/// The account as a report to sign: where every egg went, survival with its interval, sites and permits, how it was worked out. It carries
/// the time of its newest entry and not the clock's, so that the same account is the same file.
/// </summary>
public static class TotalsPdf
{
    /// <summary>A longer list is nothing that anybody reads on paper; it stands in the other files.</summary>
    public const int MostTanks = 600;

    private const double Margin = 16;

    public static async Task WriteAsync(SeasonTotals totals, Stream file, Action<int>? rowsWritten, CancellationToken cancel)
    {
        var time = totals.EnteredUntil ?? DateTime.UnixEpoch;
        var title = $"{totals.Programme}: fish account of season {totals.Season}";
        var bytes = PaperDocument.Write(title, "en", time, document =>
        {
            var flow = new PaperFlow(PaperSize.Letter, Margin);
            Summary(flow, totals, title);
            TotalsPdfCharts.Account(flow, totals.Across);
            TotalsPdfCharts.Survival(flow, "Survival from egg to release by school", Groupings.Tanks(totals, Grouping.School));
            Tables(flow, totals);
            Tanks(flow, totals);
            Closing(flow, totals);
            flow.WriteTo(document, $"{totals.Programme}, season {totals.Season}, {Stamp(totals)}");
        });
        await file.WriteAsync(bytes, cancel);
        rowsWritten?.Invoke(totals.Tanks.Count);
    }

    private static void Summary(PaperFlow flow, SeasonTotals totals, string title)
    {
        flow.Text(title, 16, bold: true, after: 3);
        var days = totals is { StartsOn: { } from, EndsOn: { } to } ? $"Season from {SeasonAtHand.Day(from)} to {SeasonAtHand.Day(to)}. " : "";
        flow.Text($"{days}{Figures.Of(totals.Tanks.Count, "tank", "tanks")}. {Capital(Stamp(totals))}.", 9, after: 4);
        flow.Text(LedgerWords.Answer(totals.Across, "the tanks"), 11, bold: true, after: 3);
        foreach (var line in SurvivalLines(NamedSurvivals.Over([.. totals.Tanks.Select(t => t.Balance)])))
        {
            flow.Text(line, 9.5, after: 1.5);
        }

        flow.Text(" ", 4);
    }

    /// <summary>The three named parts, each with what it was worked out from; the words that page and report share.</summary>
    public static IEnumerable<string> SurvivalLines(NamedSurvivals named)
    {
        var whole = named.EggToRelease;
        if (whole.Rate.Percent is null)
        {
            yield return $"Egg to release: not known yet; {Figures.Of(whole.Finished)} of {Figures.Of(whole.Supplied, "tank", "tanks")} that received eggs {(whole.Finished == 1 ? "has" : "have")} finished.";
            yield break;
        }

        yield return $"Egg to release: {Figures.Percent(whole.Rate.Percent)}{Interval(whole.Rate)}, {Figures.Of(whole.Released)} released of {Figures.Of(whole.Of)} received, in {Figures.Of(whole.Finished)} of {Figures.Of(whole.Supplied, "tank", "tanks")} supplied.";
        if (whole.Finished < whole.Supplied)
        {
            yield return $"If the other tanks release nothing more {Figures.Percent(whole.IfRestLost)}; if they end like the finished ones {Figures.Percent(whole.IfRestAverage)}; if every fish in them is released {Figures.Percent(whole.IfRestAllLive)}.";
        }

        yield return $"Egg to hatch: {Figures.Percent(named.EggToHatch.Rate.Percent)}{Interval(named.EggToHatch.Rate)}, {Figures.Of(named.EggToHatch.Alive)} of {Figures.Of(named.EggToHatch.Of)} that came alive; {Figures.Percent(named.EggToHatch.IfUnaccountedWereEggs.Percent)} if all that nobody can explain were eggs.";
        yield return $"Hatch to release: {Figures.Percent(named.HatchToRelease.Rate.Percent)}{Interval(named.HatchToRelease.Rate)}, {Figures.Of(named.HatchToRelease.Alive)} of {Figures.Of(named.HatchToRelease.Of)}; {Figures.Percent(named.HatchToRelease.IfUnaccountedWereEggs.Percent)} if all that nobody can explain were eggs.";
    }

    private static string Interval(Survival rate) => rate is { Low: { } low, High: { } high } ? $" (95 % interval {Figures.Percent(low)} to {Figures.Percent(high)})" : "";

    private static void Tables(PaperFlow flow, SeasonTotals totals)
    {
        flow.Text("Where fish were released", 12, bold: true, withNext: true);
        flow.Table(
            [new("Site", 50), new("Water", 42), new("Permit", 36), new("Tanks", 14, true), new("Fish", 18, true), new("From", 12), new("To", 12)],
            Groupings.Sites(totals).Select(g => Strings(g.Name, g.Water, string.Join("; ", g.Releases.Select(r => r.Permit).Distinct().Order(StringComparer.Ordinal)), g.Tanks, g.Fish, Short(g.First), Short(g.Last))));
        flow.Text("Permits, with those under which nothing was released", 12, bold: true, withNext: true);
        flow.Table(
            [new("Permit", 50), new("Water", 50), new("Allowed", 20, true), new("Released", 20, true), new("In all seasons", 26, true), new("Left", 18, true)],
            Groupings.Permits(totals).Select(g => Strings(g.Name, g.Water, g.Allowed ?? 0, g.Fish, g.ReleasedEver ?? 0, (g.Allowed - g.ReleasedEver) ?? 0)));
        Groups(flow, "By lot", "Lot", Groupings.Tanks(totals, Grouping.Lot));
        Groups(flow, "By species", "Species", Groupings.Tanks(totals, Grouping.Species), code => code.Replace('-', ' '));
        Groups(flow, "By school", "School", Groupings.Tanks(totals, Grouping.School));
    }

    private static void Groups(PaperFlow flow, string title, string first, IReadOnlyList<TankGroup> groups, Func<string, string>? word = null)
    {
        flow.Text(title, 12, bold: true, withNext: true);
        flow.Table(
            [new(first, 48), new("Tanks", 13, true), new("In", 18, true), new("Died", 17, true), new("Released", 19, true), new("In tanks", 18, true), new("Unacc.", 16, true), new("Egg to release, 95 %", 35, true)],
            groups.Select(g => Strings(
                g.Name.Length == 0 ? "none" : word?.Invoke(g.Name) ?? g.Name, g.Tanks.Count, g.Balance.In, Died(g.Balance), g.Balance.Released, g.Balance.StillInTank, g.Balance.Unaccounted, Rate(g.Pooled))));
    }

    private static void Tanks(PaperFlow flow, SeasonTotals totals)
    {
        flow.Text("By tank", 12, bold: true, withNext: true);
        if (totals.Tanks.Count > MostTanks)
        {
            flow.Text($"{Figures.Of(totals.Tanks.Count)} tanks are more than a report can list; every one of them stands in the CSV file and in the spreadsheet of this account.", 9.5);
            return;
        }

        flow.Table(
            [new("Tank", 15), new("School, classroom", 47), new("Lot", 13), new("In", 13, true), new("Died", 13, true), new("Smpl.", 12, true), new("Out", 12, true), new("Rel.", 13, true), new("Still", 13, true), new("Unacc.", 14, true), new("Surv. %", 18, true)],
            totals.Tanks.Select(t => Strings(
                t.Tank, $"{t.School}, {t.Classroom}", t.Lot, t.Balance.In, Died(t.Balance), t.Balance.Sampled, t.Balance.TransferredOut, t.Balance.Released,
                t.Balance.StillInTank, t.Balance.Unaccounted, t.Survival.Percent?.ToString("0.0", CultureInfo.InvariantCulture) ?? "")), 7.5);
    }

    private static void Closing(PaperFlow flow, SeasonTotals totals)
    {
        flow.Text("How it was worked out", 12, bold: true, withNext: true);
        foreach (var note in MethodNotes.All)
        {
            flow.Text(note, 8.5, after: note == MethodNotes.All[^1] ? 5 : 1.5);
        }

        if (totals.Seal is { } seal)
        {
            flow.Text($"This account is sealed. SHA-256 of its CSV file: {seal.Checksum}", 8.5, after: 1.5);
        }

        // Where the signatures come on a page of their own, it still says what was signed.
        flow.Text("Signatures", 12, bold: true, withNext: true);
        flow.Text($"For the account of season {totals.Season}, {Stamp(totals)}: {LedgerWords.Answer(totals.Across, "the tanks")}", 9.5, withNext: true);
        flow.Drawing(42, (page, box) =>
        {
            string[] signs = ["For the programme: name, date", "Signature", "Received by the agency: name, date", "Signature"];
            foreach (var (sign, i) in signs.Select((s, i) => (s, i)))
            {
                var (x, y) = (box.X + (i % 2 * (box.Width / 2)), box.Y + 16 + (i / 2 * 20));
                page.Line(x, y, x + (box.Width / 2) - 8, y);
                page.Text(sign, new Box(x, y + 1, (box.Width / 2) - 8, 5), 8);
            }
        });
    }

    private static string Stamp(SeasonTotals totals) => (totals.EnteredUntil, totals.Seal) switch
    {
        (_, { } seal) => $"sealed {seal.At.ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture)} UTC",
        ({ } until, null) => $"as entered until {until.ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture)} UTC",
        (null, null) => "nothing entered yet",
    };

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static int Died(TankBalance b) => b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown;

    private static string Short(DateOnly? day) => day?.ToString("d MMM", CultureInfo.InvariantCulture) ?? "";

    private static string Rate(PooledSurvival pooled) => pooled.Rate.Percent is null
        ? $"{pooled.Finished} of {pooled.Supplied} finished"
        : Figures.Percent(pooled.Rate.Percent) + (pooled.Rate.Low is null ? "" : string.Create(CultureInfo.InvariantCulture, $" ({pooled.Rate.Low:0.0} to {pooled.Rate.High:0.0})"));

    private static string[] Strings(params object[] cells) => [.. cells.Select(c => c is int count ? Figures.Of(count) : (string)c)];
}
