using System.Globalization;
using System.Net;
using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// Class forms to two portals as processes, each held to a fixed share of a core, and to one so held, on one PostgreSQL that is held to nothing.
/// The judge works meanwhile. Told is how many posts a second each takes, and whether it was the portals that had no more to give.
/// </summary>
public static class NodesAtShare
{
    private const double Share = 0.25;
    private const int Tanks = 50, AtOnce = 32;

    public static async Task<string> MeasureAsync(bool quick)
    {
        var tanks = new LoadTanks(Tanks);
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.PostgreSQL);
        await tanks.SeedTodayAsync(database.Choice);
        using var installation = Installation.On(database, "Production");
        installation.Settings["Serilog__MinimumLevel__Default"] = "Warning";
        using var first = await installation.ServeAsync();
        using var second = await installation.ServeAsync();
        var posts = quick ? 300 : 3000;

        // What has run often is compiled well; a held portal would need minutes for it.
        await RunAsync(tanks, [first, second], quick ? 600 : 6000);
        if (CpuShare.TryHold(first.Id, Share) is not { } one || CpuShare.TryHold(second.Id, Share) is not { } other)
        {
            return "Nobody may be held to a share of a core here (a control group cannot be made); nothing was measured.";
        }

        var (alone, both) = (new List<Round>(), new List<Round>());
        for (var round = 0; round < (quick ? 2 : 7); round++)
        {
            alone.Add(await Round.OfAsync([one], () => RunAsync(tanks, [first], posts)));
            both.Add(await Round.OfAsync([one, other], () => RunAsync(tanks, [first, second], posts)));
        }

        await first.KillAsync();
        await second.KillAsync();
        one.Dispose();
        other.Dispose();
        return string.Create(
            CultureInfo.InvariantCulture,
            $"class form, {AtOnce} at once, portals held to {Share:0.##} of a core each: one {Told(alone)}; two {Told(both)}; two take {Middle(both, r => r.PerSecond) / Middle(alone, r => r.PerSecond):0.00} times the posts of one");
    }

    private static async Task<Side> RunAsync(LoadTanks tanks, ServedPortal[] portals, int posts)
    {
        var clients = Enumerable.Range(0, AtOnce).Select(i => Clients.New(portals[i % portals.Length].Client.BaseAddress!)).ToList();
        try
        {
            return await Clients.LoopAsync(clients, posts, (client, number) => PostAsync(client, $"/t/{tanks.Codes[number % Tanks].Code}"));
        }
        finally
        {
            clients.ForEach(c => c.Dispose());
        }
    }

    private static async Task PostAsync(HttpClient client, string address)
    {
        using var form = new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["id"] = Guid.NewGuid().ToString(),
            ["water"] = "10.4",
            ["unit"] = "C",
            ["moving"] = "true",
            ["bubbles"] = "true",
            ["levelOk"] = "true",
            ["clear"] = "true",
        });
        using var answer = await client.PostAsync(address, form);
        if (answer.StatusCode != HttpStatusCode.SeeOther)
        {
            throw new InvalidOperationException($"Answered {(int)answer.StatusCode}: that would measure something else.");
        }
    }

    private static string Told(List<Round> rounds) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Middle(rounds, r => r.PerSecond):#,0} posts/s ({rounds.Min(r => r.PerSecond):#,0}-{rounds.Max(r => r.PerSecond):#,0}), at their share's end in {100 * Middle(rounds, r => r.Stopped):0} % of the periods, the machine idle {100 * Middle(rounds, r => r.Idle):0} %");

    private static double Middle(List<Round> rounds, Func<Round, double> of) => rounds.Select(of).Order().ElementAt(rounds.Count / 2);

    /// <param name="Stopped">Part of the periods in which a portal had used up its share.</param>
    /// <param name="Idle">Part of the machine's time in which nobody wanted anything.</param>
    private sealed record Round(double PerSecond, double Stopped, double Idle)
    {
        public static async Task<Round> OfAsync(CpuShare[] shares, Func<Task<Side>> runAsync)
        {
            var (before, machine) = (shares.Select(s => s.Told()).ToList(), Machine());
            var side = await runAsync();
            var (after, then) = (shares.Select(s => s.Told()).ToList(), Machine());
            return new Round(
                1 / side.Seconds,
                (double)after.Zip(before, (a, b) => a.Stopped - b.Stopped).Sum() / Math.Max(1, after.Zip(before, (a, b) => a.Periods - b.Periods).Sum()),
                (double)(then.Idle - machine.Idle) / Math.Max(1, then.All - machine.All));
        }

        private static (long Idle, long All) Machine()
        {
            var ticks = File.ReadLines("/proc/stat").First().Split(' ', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(t => long.Parse(t, CultureInfo.InvariantCulture)).ToList();
            return (ticks[3] + ticks[4], ticks.Sum());
        }
    }
}
