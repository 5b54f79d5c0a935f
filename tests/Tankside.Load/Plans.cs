using System.Globalization;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Flags;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>How PostgreSQL answers the questions of the pages, the judge and the doors of a large programme: by which index, and how many rows that took.</summary>
public static partial class Plans
{
    /// <summary>A table of what was asked, in the words of docs/database.md.</summary>
    public static async Task<object> TellAsync(bool quick)
    {
        var (tanks, days) = quick ? (200, 7) : (1000, 30);
        using var listener = new CommandListener();
        await using var place = await LoadPlace.CreateAsync(DatabaseKind.PostgreSQL, tanks, environment: "Development");
        await Judging.FillAsync(place, place.Tanks, days, perHour: 1);
        await PageOpening.FlagAsync(place);
        await PlanTelling.StartAsync(place.Portal, onlyByIndex: false);
        place.Portal.Listen();
        using var coordinator = await place.Portal.ClientAs(Role.Coordinator, place.Programme);
        using var anyone = place.Portal.Anonymous();
        anyone.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", place.Key);
        var code = place.Tanks[7].Code;

        var table = new StringBuilder(FormattableString.Invariant($"{tanks:#,0} tanks, {(long)tanks * days * 24:#,0} readings of {days} days\n\n| what | asks | read by | rows |\n|---|---|---|---|\n"));
        foreach (var (what, address) in new[]
        {
            ("morning round", "/round"), ("a tank's page", $"/tanks/{code}"), ("register of tanks", "/tanks?page=3"), ("hatch calendar", "/calendar"),
            ("a tank's ledger", $"/ledger/{code}"), ("record of changes", "/changes"), ("class page", $"/t/{place.Codes[7].Code}"),
        })
        {
            await TellAsync(table, listener, place, what, async () => (await coordinator.GetAsync(address)).EnsureSuccessStatusCode().Dispose());
        }

        var readings = Enumerable.Range(0, 60).Select(i => new { id = Guid.NewGuid(), tank = place.Tanks[i % 50].Code, at = TestWorld.Now.AddMinutes(-i - 1), waterC = 10.4 });
        await TellAsync(table, listener, place, "a batch of 60 readings", async () =>
            (await anyone.PostAsJsonAsync("/api/v1/readings", new { readings })).EnsureSuccessStatusCode().Dispose());
        await TellAsync(table, listener, place, "judging every tank", () => place.Portal.SweepAsync());
        return table.ToString();
    }

    private static async Task TellAsync(StringBuilder table, CommandListener listener, LoadPlace place, string what, Func<Task> act)
    {
        await act(); // What a programme set for itself is known after the first time.
        listener.HearOnly(place.Portal.Database.ConnectionString);
        await act();
        foreach (var line in listener.Plans.Select(Line).OfType<string>().CountBy(l => l))
        {
            table.Append(CultureInfo.InvariantCulture, $"| {what} | {line.Key}{(line.Value > 1 ? FormattableString.Invariant($" ({line.Value} times)") : "")} |\n");
        }
    }

    /// <summary>The tables that a statement read, each with the index and the rows that were looked at.</summary>
    private static string? Line(string plan)
    {
        var reads = Read().Matches(plan).Select(m => (
            Table: Part().Replace(m.Groups["table"].Value, "readings"),
            By: m.Groups["index"].Success ? m.Groups["index"].Value : "all of it",
            Rows: (long)(double.Parse(m.Groups["rows"].Value, CultureInfo.InvariantCulture) * double.Parse(m.Groups["loops"].Value, CultureInfo.InvariantCulture))))
            .GroupBy(r => r.Table).ToList();
        return reads.Count == 0 ? null : string.Join(
            " | ",
            string.Join(", ", reads.Select(t => t.Key)),
            string.Join("; ", reads.SelectMany(t => t.Select(r => r.By).Distinct())),
            reads.Sum(t => t.Sum(r => r.Rows)).ToString("#,0", CultureInfo.InvariantCulture));
    }

    [GeneratedRegex(@"(?:Seq Scan|Index (?:Only )?Scan(?: Backward)? using (?<index>\w+)|Bitmap Heap Scan(?=[\s\S]*?Bitmap Index Scan on (?<index>\w+))) on (?<table>\w+)[^(\n]*\(cost[^)]*\) \(actual rows=(?<rows>[\d.]+) loops=(?<loops>\d+)\)")]
    private static partial Regex Read();

    [GeneratedRegex(@"^readings_\w+$")]
    private static partial Regex Part();
}
