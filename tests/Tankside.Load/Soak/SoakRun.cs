using System.Globalization;
using Tankside.Load.Clock;
using Tankside.Load.Drill;
using Tankside.Load.Faults;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Soak;

/// <summary>
/// A day of a season at a fast clock: loggers, classes and people at a portal, something going wrong every few minutes, and one process that is
/// watched to the end. On PostgreSQL a second portal is killed again and again; on SQLite, where there is one, it is killed in the first quarter
/// only, or nothing could be said of its memory.
/// </summary>
public static class SoakRun
{
    public const string Command = "soak";
    private const string Name = "tankside";
    private const int Quarters = 4;

    /// <summary>How long a fault lasts.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromSeconds(8), Start = TimeSpan.FromSeconds(5);

    /// <summary>Between two readings of a logger by the fast clock, and between two forms of a class by the real one.</summary>
    private static readonly TimeSpan LoggerRests = TimeSpan.FromMinutes(10), ClassRests = TimeSpan.FromSeconds(5);

    /// <param name="words">What stands behind the command; its switches have a value each.</param>
    public static async Task<int> RunAsync(string[] words)
    {
        var (hours, speed) = (Value(words, "--hours", 24), Value(words, "--speed", 48));
        // Real seconds between two faults.
        var every = TimeSpan.FromSeconds(Value(words, "--every", 100));
        var kinds = words.Contains("--sqlite") ? [DatabaseKind.Sqlite] : words.Contains("--postgres") ? [DatabaseKind.PostgreSQL] : Enum.GetValues<DatabaseKind>();
        // Both at once: they share the machine, and half the time.
        var told = await Task.WhenAll(kinds.Select(kind => Task.Run(() => OnAsync(kind, hours, speed, every))));
        foreach (var (text, _) in told)
        {
            Console.WriteLine(text);
        }

        return told.Any(t => t.IsBad) ? 1 : 0;
    }

    private static double Value(string[] words, string name, double otherwise) =>
        Array.IndexOf(words, name) is >= 0 and var at && at + 1 < words.Length ? double.Parse(words[at + 1], CultureInfo.InvariantCulture) : otherwise;

    private static async Task<(string Text, bool IsBad)> OnAsync(DatabaseKind kind, double hours, double speed, TimeSpan every)
    {
        using var hands = new ClockHands(DateTime.UtcNow, speed);
        await using var file = kind == DatabaseKind.Sqlite ? await TestDatabase.CreateAsync(kind) : null;
        using var server = kind == DatabaseKind.PostgreSQL ? new PostgresAlone() : null;
        using var way = server is null ? null : new PassThrough(server.Port);
        await using var mail = new MailServer();
        var metrics = new Uri($"http://127.0.0.1:{Loopback.FreePort()}/metrics");
        using var place = await TrafficPlace.SeedAsync(
            file?.Choice ?? await server!.CreateAsync(Name), server?.ChoiceOf(Name, way!.Port), hands, new Dictionary<string, string>(mail.Keys));
        // What the judge looks back over is as dense as a real season's; a class sends its form oftener than any would, for people to be about.
        var pace = Pace.Busy with { Logger = LoggerRests / speed, Class = ClassRests };
        var watched = await place.ServeAsync(server is null ? 50 : 30, 3, 2, metrics, pace);
        var killed = server is null ? watched : await place.ServeAsync(20, 2, 1, pace: pace);
        var from = hands.Now;
        double Hour() => (hands.Now - from).TotalHours;
        var samples = new List<Sample>();
        var happened = new List<string>();
        using var stop = new CancellationTokenSource();
        var faults = FaultsAsync();
        while (Hour() < hours)
        {
            await Task.Delay(TimeSpan.FromMinutes(15) / speed);
            try
            {
                samples.Add(await new Watched(place.PortalOf(watched), metrics, place, server, Name).LookAsync(Hour()));
            }
            catch (Exception e) when (e is HttpRequestException or IOException or InvalidOperationException or System.Data.Common.DbException)
            {
                // Just what is going wrong now; the next look comes soon.
            }
        }

        await stop.CancelAsync();
        await faults;
        await place.EndAsync();
        var tally = new Tally("soak", kind);
        await place.CountAsync(tally);
        if (mail.All.GroupBy(m => m.MessageId).Count(g => g.Count() > 1) is > 0 and var twice)
        {
            tally.Wrong($"{twice} letters arrived twice");
        }

        var (lines, grows) = Told(samples, hours, speed);
        return (string.Join('\n', ["", $"{kind}", "", Sample.Header, .. samples, "", .. lines, "", "Faults: " + string.Join(", ", happened.CountBy(h => h).Select(h => $"{h.Key} ({h.Value})")) + $". Letters: {mail.All.Count}.", "", Tally.Header, tally]), tally.IsBad || grows);

        async Task FaultsAsync()
        {
            for (var i = 0; !stop.IsCancellationRequested; i++)
            {
                await Task.Delay(i == 0 ? every / 4 : every, stop.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                if (!stop.IsCancellationRequested)
                {
                    happened.Add(await HappenAsync(i % 4));
                }
            }
        }

        async Task<string> HappenAsync(int which)
        {
            switch (which)
            {
                case 0 when server is not null || Hour() < hours / Quarters - 2:
                    await place.KillAsync(killed);
                    await Task.Delay(Start);
                    await place.StartAgainAsync(killed);
                    return "a portal killed";
                case 1 when server is not null:
                    server.Restart(immediate: happened.Count % 8 < 4);
                    return "the database restarted";
                case 2 when way is not null:
                    way.Delay = TimeSpan.FromMilliseconds(200);
                    await Task.Delay(Lasts);
                    way.Delay = TimeSpan.Zero;
                    return "the database slow";
                case 3:
                    mail.Mood = MailServerMood.Refuses;
                    await Task.Delay(Lasts);
                    mail.Mood = MailServerMood.Takes;
                    return "mail refused";
                default:
                    await AwayDatabase.HoldAsync(place.Database, Lasts);
                    return "the write lock held";
            }
        }
    }

    /// <summary>Everything after the first quarter, when caches are full and every page was opened.</summary>
    private static (IEnumerable<string> Lines, bool Grows) Told(List<Sample> samples, double hours, double speed)
    {
        var rest = samples.Where(s => s.Hour > hours / Quarters).ToList();
        var over = hours - (hours / Quarters);
        (string Of, Func<Sample, double> Value)[] curves =
        [
            ("resident memory, MiB", s => s.ResidentMiB), ("GC heap, MiB", s => s.HeapMiB), ("handles", s => s.Handles), ("threads", s => s.Threads), ("database connections", s => s.Connections),
        ];
        var slopes = curves.Select(c => (c.Of, Slope: Slope.Of([.. rest.Select(s => (s.Hour, c.Value(s)))]))).ToList();
        return (
            [
                string.Create(CultureInfo.InvariantCulture, $"After the first quarter, {rest.Count} samples over {over:0.#} simulated hours ({over * 60 / speed:0} real minutes):"), "",
                "| | mean | slope an hour ± its spread | |", "|---|---|---|---|", .. slopes.Select(s => s.Slope.Words(s.Of, over)),
            ],
            slopes.Any(s => !s.Slope.IsFlat(over)));
    }
}
