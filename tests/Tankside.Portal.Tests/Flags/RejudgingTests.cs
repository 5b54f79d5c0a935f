using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Judging the same facts again, in pieces, late or by two portals at once, comes to the same.</summary>
public class RejudgingTests
{
    [Theory, BothDatabases]
    public async Task Judging_everything_again_changes_nothing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SeedTroublesAsync(host, world);
        await host.JudgeAsync();
        await host.SweepAsync();
        var before = await EverythingAsync(host);

        var again = await host.SweepAsync();

        Assert.Equal((4, 0, 0), (again.Tanks, again.Opened, again.Cleared));
        Assert.Equal(before, await EverythingAsync(host));
        Assert.True((await OpenKindsAsync(host)).Count >= 5, "The seed should raise several kinds of flag.");
    }

    [Theory, BothDatabases]
    public async Task An_hour_later_without_news_no_flag_is_opened_twice(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SeedTroublesAsync(host, world);
        await host.SweepAsync();
        var before = await OpenKindsAsync(host);

        host.Time.Advance(TimeSpan.FromHours(1));
        await host.SweepAsync();

        Assert.Equal(before, await OpenKindsAsync(host));
    }

    [Theory, BothDatabases]
    public async Task Two_portals_that_judge_at_once_open_each_flag_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SeedTroublesAsync(host, world);
        var judges = Enumerable.Range(0, 3).Select(_ => NewJudge(host)).ToList();

        await Task.WhenAll(judges.Select(j => Task.Run(() => j.JudgeAllAsync(CancellationToken.None))));
        await host.JudgeAsync();
        await host.SweepAsync();

        judges.ForEach(j => j.Dispose());
        var open = await OpenKindsAsync(host);
        Assert.Equal(open.Distinct(), open);
        await using var db = host.OpenDb();
        Assert.Equal(open.Count, await db.FlagEvents.CountAsync(e => e.Deed == FlagDeed.Opened));
        Assert.Empty(await db.UnjudgedFacts.ToListAsync());
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public async Task The_running_days_are_those_that_the_readings_rebuild(DatabaseKind kind, int seed)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var random = new Random(seed);
        var sent = new List<IncomingReading>();
        for (var step = 0; step < 60; step++)
        {
            var reading = NextReading(random, host, world, sent);
            if ((await host.RecordAsync(reading))[0] is IntakeOutcome.Accepted)
            {
                sent.RemoveAll(r => r.SenderId == reading.Corrects);
                sent.Add(reading);
            }

            if (random.Next(4) == 0)
            {
                await host.JudgeAsync();
            }
        }

        await host.JudgeAsync();

        await using var db = host.OpenDb();
        var readings = (await db.Readings.AsNoTracking().ToListAsync()).Where(r => r.Counts).ToList();
        var clock = ProgrammeClock.Of(world.One.Programme.TimeZone);
        var rebuilt = readings.GroupBy(r => r.TankId).SelectMany(g => TankDays.Fold(g.Key, g.Select(r => new ReadingFact(r.At, r.Seen, false)), clock));
        var running = await db.TankDays.AsNoTracking().ToListAsync();
        Assert.Equal(Lines(rebuilt), Lines(running));
        var facts = await PacksAsync(host);
        Assert.Equal(
            readings.GroupBy(r => r.TankId).SelectMany(g => g.GroupBy(r => clock.Day(r.At)).Select(d => Pack(g.Key, d))).Order(), facts);

        var said = new List<(int Done, int Of)>();
        await host.Services.GetRequiredService<RunningState>().RebuildAsync((done, of) => said.Add((done, of)), CancellationToken.None);
        Assert.Equal(Lines(rebuilt), Lines(await db.TankDays.AsNoTracking().ToListAsync()));
        Assert.Equal(facts, await PacksAsync(host));
        Assert.Equal([(0, 4), (4, 4)], said);
        Assert.True(readings.Count > 20 && await db.Readings.AnyAsync(r => r.CorrectedBy != null), "The seed should correct some and keep many.");
    }

    private static string Pack(Guid tank, IGrouping<DateOnly, Reading> day) => Line(DayFacts.Of(
        tank, day.Key, [.. day.OrderBy(r => r.At).ThenBy(r => r.Id).Select(r => new ReadingFact(r.At, r.Seen, r.Source == ReadingSource.Class, r.ReceivedAt))])!);

    private static async Task<List<string>> PacksAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return [.. (await db.DayFacts.AsNoTracking().ToListAsync()).Select(Line).Order()];
    }

    private static string Line(DayFacts day) => JsonSerializer.Serialize(day);

    public static TheoryData<DatabaseKind, int> Seeds()
    {
        var rows = new TheoryData<DatabaseKind, int>();
        foreach (var row in new BothDatabasesAttribute().GetData(null!))
        {
            rows.Add((DatabaseKind)row[0], 1);
            rows.Add((DatabaseKind)row[0], 2);
            rows.Add((DatabaseKind)row[0], 3);
        }

        return rows;
    }

    /// <summary>A reading of some time in the last ten days, late more often than not; every third corrects an earlier one, maybe on another day.</summary>
    private static IncomingReading NextReading(Random random, PortalHost host, TestWorld world, List<IncomingReading> sent)
    {
        var seen = new Observation
        {
            DeadEggs = random.Next(3) == 0 ? random.Next(4) : null,
            DeadAlevins = random.Next(5) == 0 ? random.Next(3) : null,
            Hatched = random.Next(4) == 0 ? (Share)random.Next(5) : null,
            Moving = true,
        };
        var reading = Sent.Water(world.One.Tanks[random.Next(2)], host.Now.AddMinutes(-random.Next(10 * 24 * 60)), 9.5 + (random.Next(140) / 100.0));
        reading = reading with { Seen = seen, Water = random.Next(5) == 0 ? null : reading.Water };
        return sent.Count > 0 && random.Next(3) == 0 && sent[random.Next(sent.Count)] is var earlier
            ? reading with { Corrects = earlier.SenderId, TankId = earlier.TankId }
            : reading;
    }

    /// <summary>Trouble of many kinds in three tanks; the fourth is well.</summary>
    private static Task SeedTroublesAsync(PortalHost host, TestWorld world) => host.AcceptAsync(
        Sent.Water(world.One.Tanks[0], host.Now.AddHours(-6), 12.5),
        Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-10), 14.5) with { Seen = new Observation { ChillerRunning = false, DeadEggs = 14 } },
        Sent.Water(world.One.Tanks[1], host.Now.AddMinutes(-9), 3.5) with { Seen = new Observation { IceOnCoil = true, Moving = false, Bubbles = false } },
        Sent.Water(world.Two.Tanks[0], host.Now.AddDays(-6), 10) with { Seen = new Observation { AmmoniaTotalMgL = 4, Ph = 8.4 } },
        Sent.Water(world.Two.Tanks[1], host.Now.AddMinutes(-9), 10.5) with { Seen = new Observation { Moving = true, Hatched = Share.Some } });

    private static Judge NewJudge(PortalHost host) => new(
        new Contexts(host), host.Database, host.Time, host.Services.GetRequiredService<RoundFeed>(),
        new SharedJudge(new Contexts(host), host.Database, host.Time, host.Services.GetRequiredService<RoundFeed>()),
        host.Services.GetServices<ISavedWithFlags>(), NullLogger<Judge>.Instance);

    private static async Task<List<(Guid Tank, FlagKind Kind)>> OpenKindsAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        var open = await db.Flags.Where(f => f.State == FlagState.Open).ToListAsync();
        return [.. open.Select(f => (f.TankId!.Value, f.Kind)).Order()];
    }

    private static async Task<string> EverythingAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return JsonSerializer.Serialize(new
        {
            Flags = await db.Flags.OrderBy(f => f.Id).ToListAsync(),
            Events = await db.FlagEvents.OrderBy(e => e.Id).ToListAsync(),
            Days = Lines(await db.TankDays.ToListAsync()),
        });
    }

    private static IEnumerable<string> Lines(IEnumerable<TankDay> days) => days.Select(d => JsonSerializer.Serialize(d)).Order();

    private sealed class Contexts(PortalHost host) : IDbContextFactory<HatcheryDb>
    {
        public HatcheryDb CreateDbContext() => host.OpenDb();
    }
}
