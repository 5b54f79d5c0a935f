using System.Net;
using System.Text.Json;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The red-flag queue over HTTP: the round's own order, and history as it was worded when it ended.</summary>
public class FlagsApiTests
{
    [Theory, BothDatabases]
    public async Task Open_flags_come_in_the_order_of_the_round(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;

        var flags = await FlagsAsync(host, world.One.CoordinatorKey, "?state=open");

        var round = await host.CallAsync<Round, RoundNow>(r => r.LoadAsync(world.One.Programme.Id, CancellationToken.None));
        var expected = round.Calls.SelectMany(c => c.Troubles.Select(t => (t.Rank, c.Call.Tank.Code, t.Flag.Id, t.Reason))).ToList();
        Assert.Equal(expected, flags.Select(f => (f.GetProperty("rank").GetInt32(), Text(f, "tank"), f.GetProperty("id").GetGuid(), Text(f, "reason"))));
        Assert.Equal(Enumerable.Range(1, flags.Count), flags.Select(f => f.GetProperty("rank").GetInt32()));
        Assert.Equal(["A001", "A002"], flags.Select(f => Text(f, "tank")).Distinct().Order());
    }

    [Theory, BothDatabases]
    public async Task A_flag_tells_its_numbers_and_when_it_was_opened(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;

        var warming = Assert.Single(await FlagsAsync(host, world.One.CoordinatorKey, ""), f => Text(f, "kind") == "warming-fast");

        var stored = Assert.Single(await host.FlagsAsync(FlagKind.WarmingFast));
        Assert.Equal(("open", "A001", FlagNames.NameOf(stored.Urgency)), (Text(warming, "state"), Text(warming, "tank"), Text(warming, "urgency")));
        Assert.Equal("2027-02-03T08:15:00-07:00", Text(warming, "openedAt"));
        Assert.Equal(["A001"], warming.GetProperty("tanks").EnumerateArray().Select(t => t.GetString()!));
        Assert.Equal(148, warming.GetProperty("fish").GetInt32());
        Assert.True(warming.GetProperty("expectedLoss").GetDouble() > 0);
        Assert.Equal(Math.Round(stored.Hazard.HoursLeftAt(host.Now)!.Value.Mid, 2), warming.GetProperty("hoursLeft").GetProperty("mid").GetDouble());
    }

    [Theory, BothDatabases]
    public async Task Settled_flags_come_newest_first_and_keep_the_words_of_their_end(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;
        await CalmAsync(host, world.One.Tanks[1]);
        var then = host.Now;
        await CalmAsync(host, world.One.Tanks[0]);
        host.Time.Advance(TimeSpan.FromDays(30));
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[1], host.Now, new Observation { DeadEggs = 20 }));

        var flags = await FlagsAsync(host, world.One.CoordinatorKey, "?state=settled");

        Assert.Equal("A001", Text(flags[0], "tank"));
        var iced = Assert.Single(flags, f => Text(f, "kind") == "iced-coil");
        var stored = Assert.Single(await host.FlagsAsync(FlagKind.IcedCoil));
        var calendar = new SchoolCalendar(ProgrammeClock.Of(world.One.Programme.TimeZone), new TimeOnly(8, 0), new TimeOnly(15, 15), []);
        Assert.Equal(new ReasonWords(calendar, 148, then).Of(stored.AsFinding()), Text(iced, "reason"));
        Assert.Equal(("A002", "settled", 0), (Text(iced, "tank"), Text(iced, "state"), iced.GetProperty("rank").GetInt32()));
        Assert.All(flags, f => Assert.Equal("settled", Text(f, "state")));
        Assert.DoesNotContain(await FlagsAsync(host, world.One.CoordinatorKey, "?state=open"), f => Text(f, "kind") == "iced-coil");
    }

    [Theory, BothDatabases]
    public async Task A_key_of_another_programme_gets_none_of_them(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;
        await CalmAsync(host, world.One.Tanks[1]);

        Assert.Empty(await FlagsAsync(host, world.Two.CoordinatorKey, "?state=open"));
        Assert.Empty(await FlagsAsync(host, world.Two.CoordinatorKey, "?state=settled"));
        Assert.Equal(HttpStatusCode.Forbidden, (await host.ClientWithKey(world.One.LoggerKey).GetAsync("/api/v1/flags")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Another_state_is_refused_by_name(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var answer = await host.ClientWithKey(world.One.CoordinatorKey).GetAsync("/api/v1/flags?state=closed");

        Assert.Equal((HttpStatusCode.BadRequest, "application/problem+json"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
        Assert.NotEmpty(problem.GetProperty("errors").GetProperty("state").EnumerateArray());
    }

    [Fact]
    public void A_replay_writes_neither_id_nor_state()
    {
        var names = typeof(FlagJson).GetProperties().Select(p => p.Name).ToList();

        Assert.Contains("ExpectedLoss", names);
        Assert.DoesNotContain(names, n => n is "Id" or "OpenedAt" or "State");
    }

    /// <summary>Tank 0 warms fast, the coil of tank 1 is iced.</summary>
    private static async Task<(PortalHost Host, TestWorld World)> WithTroublesAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddHours(-3), 10.5),
            Sent.Water(world.One.Tanks[0], host.Now.AddHours(-1), 13),
            Sent.Water(world.One.Tanks[1], host.Now.AddHours(-1), 3.8));
        await host.JudgeAsync();
        return (host, world);
    }

    private static async Task CalmAsync(PortalHost host, Tank tank)
    {
        host.Time.Advance(TimeSpan.FromHours(4));
        await host.AcceptAsync(Sent.Water(tank, host.Now, 10.5));
        await host.JudgeAsync();
    }

    private static async Task<List<JsonElement>> FlagsAsync(PortalHost host, string key, string query)
    {
        var answer = await host.ClientWithKey(key).GetAsync("/api/v1/flags" + query);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return [.. JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement.GetProperty("flags").EnumerateArray()];
    }

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;
}
