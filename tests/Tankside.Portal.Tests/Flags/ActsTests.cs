using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.Calls;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What a coordinator does in the round: give, promise, wait, call.</summary>
public class ActsTests
{
    [Theory, BothDatabases]
    public async Task A_promise_takes_the_call_out_of_the_round_and_raises_it_again_when_due(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        var due = host.Now.AddHours(3);
        await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Promised, "Mr K floats ice by noon", Until: due));
        await host.SweepAsync();

        var resting = await RoundAsync(host, world);
        Assert.Empty(resting.Calls);
        Assert.Equal(due, Assert.Single(resting.Resting).RestsUntil);

        host.Time.Advance(TimeSpan.FromHours(3));
        await host.SweepAsync();
        await host.SweepAsync();

        var call = Assert.Single((await RoundAsync(host, world)).Calls);
        Assert.StartsWith("What was promised was due", call.Leading.Reason, StringComparison.Ordinal);
        Assert.Equal([FlagDeed.Opened, FlagDeed.Promised, FlagDeed.PromiseDue], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_promise_that_is_kept_before_it_is_due_clears_the_flag(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Promised, "ice", Until: host.Now.AddHours(3)));

        host.Time.Advance(TimeSpan.FromHours(1));
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now, 10.4));
        await host.JudgeAsync();
        host.Time.Advance(TimeSpan.FromHours(3));
        await host.SweepAsync();

        Assert.Equal([FlagDeed.Opened, FlagDeed.Promised, FlagDeed.Cleared], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task What_waits_comes_back_at_once_when_it_gets_worse(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Waiting, "He looks again after lunch", Until: host.Now.AddHours(5)));
        host.Time.Advance(TimeSpan.FromHours(1));
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now, 16));
        await host.JudgeAsync();

        Assert.Equal(Urgency.ActNow, Assert.Single((await RoundAsync(host, world)).Calls).Urgency);
        Assert.Contains(FlagDeed.WaitOver, await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_call_that_reads_the_thermometer_is_a_reading_and_clears_what_a_class_could_not(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 16);
        await using var _ = host;
        host.Time.Advance(TimeSpan.FromHours(2));
        var outcome = await CallAsync(host, world, flag, Told(water: "51,8", unit: "F", moving: "true"));
        await host.JudgeAsync();

        Assert.IsType<CallOutcome.Kept>(outcome);
        await using var db = host.OpenDb();
        var reading = await db.Readings.SingleAsync(r => r.Source == ReadingSource.PhoneCall);
        Assert.Equal((11, "51,8", true, world.One.People[Role.Coordinator].Id), (reading.Seen.WaterC, reading.TypedWater, reading.Seen.Moving, reading.EnteredBy));
        Assert.Empty((await RoundAsync(host, world)).Calls);
        Assert.Equal([FlagDeed.Opened, FlagDeed.Called, FlagDeed.Cleared], (await host.DeedsAsync(flag)).Where(d => d != FlagDeed.Updated));
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_read_in_a_call_saves_nothing(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;

        var outcome = await CallAsync(host, world, flag, Told(water: "about ten"));

        Assert.Contains("water", Assert.IsType<CallOutcome.NotRead>(outcome).Errors.Keys);
        await using var db = host.OpenDb();
        Assert.False(await db.Readings.AnyAsync(r => r.Source == ReadingSource.PhoneCall));
        Assert.Equal([FlagDeed.Opened], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_doubtful_number_on_the_phone_is_asked_and_not_judged(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;

        var outcome = await CallAsync(host, world, flag, Told(water: "25", unit: "C"));

        Assert.Contains("25", Assert.IsType<CallOutcome.Kept>(outcome).Doubt, StringComparison.Ordinal);
        Assert.Equal(1, (await RoundAsync(host, world)).Doubts);
    }

    [Theory, BothDatabases]
    public async Task Nobody_reached_with_a_time_to_try_again_waits_and_without_one_stays(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        await CallAsync(host, world, flag, [], reached: false);
        Assert.Single((await RoundAsync(host, world)).Calls);

        await CallAsync(host, world, flag, [], reached: false, promise: "office closed over lunch", due: host.Now.AddHours(1));

        Assert.Single((await RoundAsync(host, world)).Resting);
        Assert.Equal([FlagDeed.Opened, FlagDeed.NotReached, FlagDeed.Waiting], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_flag_is_given_only_to_somebody_who_works_the_round(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        var lead = world.One.People[Role.ProgrammeLead];

        Assert.IsType<ActOutcome.Refused>(await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Assigned, To: world.One.People[Role.Teacher].Id)));
        Assert.IsType<ActOutcome.Refused>(await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Assigned, To: world.Two.People[Role.Coordinator].Id)));
        Assert.IsType<ActOutcome.Done>(await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Assigned, To: lead.Id)));

        Assert.Equal(lead.Name, Assert.Single((await RoundAsync(host, world)).Calls).Leading.TakenByName);
    }

    [Theory, BothDatabases]
    public async Task What_is_promised_without_words_or_for_the_past_is_refused(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;

        foreach (var (words, hours) in new[] { ("", 2.0), ("ice", -0.1), ("ice", 24 * 15) })
        {
            Assert.IsType<ActOutcome.Refused>(await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Promised, words, Until: host.Now.AddHours(hours))));
        }

        Assert.Equal([FlagDeed.Opened], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task Every_act_that_can_be_taken_back_is_taken_back_by_its_opposite(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        FlagAct[] acts =
        [
            new(flag.Id, 0, FlagDeed.Taken),
            new(flag.Id, 0, FlagDeed.Assigned, To: world.One.People[Role.ProgrammeLead].Id),
            new(flag.Id, 0, FlagDeed.Promised, "ice", Until: host.Now.AddHours(2)),
            new(flag.Id, 0, FlagDeed.Waiting, "lunch", Until: host.Now.AddHours(2)),
            new(flag.Id, 0, FlagDeed.Closed, Outcome: Outcome.FalseAlarm, Cause: TroubleCause.Thermometer),
        ];
        foreach (var act in acts)
        {
            var before = await FlagAsync(host, flag.Id);
            var done = Assert.IsType<ActOutcome.Done>(await ActAsync(host, world, act with { Turn = before.Turn }));
            var back = Undoing.Of(act, before, done.Flag)!;
            Assert.IsType<ActOutcome.Done>(await ActAsync(host, world, back));
            var after = await FlagAsync(host, flag.Id);
            Assert.Equal(
                (before.State, before.TakenBy, before.PromiseDue, before.WaitUntil, before.SettledAt),
                (after.State, after.TakenBy, after.PromiseDue, after.WaitUntil, after.SettledAt));
        }
    }

    [Theory, BothDatabases]
    public async Task Bringing_back_what_rests_is_taken_back_to_the_same_hour(DatabaseKind kind)
    {
        var (host, world, flag) = await WarmAsync(kind, 13);
        await using var _ = host;
        var due = host.Now.AddHours(2);
        await ActAsync(host, world, new FlagAct(flag.Id, 0, FlagDeed.Promised, "ice", Until: due));
        var resting = await FlagAsync(host, flag.Id);
        var act = new FlagAct(flag.Id, resting.Turn, FlagDeed.WaitOver);

        var done = Assert.IsType<ActOutcome.Done>(await ActAsync(host, world, act));
        await ActAsync(host, world, Undoing.Of(act, resting, done.Flag)!);

        Assert.Equal(due, (await FlagAsync(host, flag.Id)).PromiseDue);
    }

    [Theory]
    [InlineData(FlagDeed.SpareReserved)]
    [InlineData(FlagDeed.SpareGivenBack)]
    [InlineData(FlagDeed.FirstAidSent)]
    public async Task What_a_flag_only_tells_of_cannot_be_said_without_being_done(FlagDeed deed)
    {
        var (host, world, flag) = await WarmAsync(DatabaseKind.Sqlite, 13);
        await using var _ = host;

        Assert.IsType<ActOutcome.Refused>(await ActAsync(host, world, new FlagAct(flag.Id, 0, deed)));
        Assert.Equal([FlagDeed.Opened], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_promise_made_in_a_call_stands_at_every_trouble_of_the_tank(DatabaseKind kind)
    {
        var (host, world, warm) = await WarmAsync(kind, 13);
        await using var _ = host;
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddMinutes(-1), new Observation { Moving = false }));
        await host.JudgeAsync();
        var still = Assert.Single(await host.FlagsAsync(FlagKind.PumpFault));
        var due = host.Now.AddHours(2);

        Assert.IsType<CallOutcome.Kept>(await CallAsync(host, world, warm, [], promise: "They free the pump and float ice", due: due));

        Assert.Equal([due, due], [(await FlagAsync(host, warm.Id)).PromiseDue!.Value, (await FlagAsync(host, still.Id)).PromiseDue!.Value]);
        Assert.Empty((await RoundAsync(host, world)).Calls);
    }

    [Theory, BothDatabases]
    public async Task A_promise_outlives_the_trouble_that_the_same_call_settles(DatabaseKind kind)
    {
        var (host, world, warm) = await WarmAsync(kind, 13);
        await using var _ = host;
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddMinutes(-1), new Observation { Moving = false }));
        await host.JudgeAsync();
        var still = Assert.Single(await host.FlagsAsync(FlagKind.PumpFault));
        await ActAsync(host, world, new FlagAct(warm.Id, 0, FlagDeed.Closed, Outcome: Outcome.FalseAlarm, Cause: TroubleCause.Thermometer));
        var due = host.Now.AddHours(2);

        Assert.IsType<CallOutcome.Kept>(await CallAsync(host, world, warm, [], promise: "They free the pump", due: due));

        Assert.Equal(due, (await FlagAsync(host, still.Id)).PromiseDue);
    }

    private static async Task<(PortalHost Host, TestWorld World, Flag Flag)> WarmAsync(DatabaseKind kind, double celsius)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var hatched = new Observation { Hatched = Share.All };
        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-5), celsius) with { Seen = hatched },
            Sent.Water(world.One.Tanks[1], host.Now.AddMinutes(-5), 10.5) with { Seen = hatched });
        await host.JudgeAsync();
        return (host, world, Assert.Single(await host.FlagsAsync(FlagKind.Warm)));
    }

    private static CurrentUser Coordinator(TestWorld world) =>
        new(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);

    private static Task<ActOutcome> ActAsync(PortalHost host, TestWorld world, FlagAct act) =>
        host.CallAsync<ActOnFlag, ActOutcome>(acts => acts.ActAsync(act, Coordinator(world), CancellationToken.None));

    private static Task<RoundNow> RoundAsync(PortalHost host, TestWorld world) =>
        host.CallAsync<Round, RoundNow>(round => round.LoadAsync(world.One.Programme.Id, CancellationToken.None));

    private static async Task<CallOutcome> CallAsync(
        PortalHost host, TestWorld world, Flag flag, Dictionary<string, string> told, bool reached = true, string? promise = null, DateTime? due = null)
    {
        await using var db = host.OpenDb();
        List<Flag> standing =
        [
            await FlagAsync(host, flag.Id),
            .. await db.Flags.AsNoTracking().Where(f => f.TankId == flag.TankId && f.Id != flag.Id && f.State == FlagState.Open).ToListAsync(),
        ];
        var call = new Call(Guid.NewGuid(), reached, told, null, promise, due);
        return await host.CallAsync<RecordCall, CallOutcome>(
            calls => calls.KeepAsync(call, world.One.Tanks[0], standing, Coordinator(world), CancellationToken.None));
    }

    private static Dictionary<string, string> Told(string water, string unit = "F", string moving = "") =>
        new() { ["water"] = water, ["unit"] = unit, ["moving"] = moving };

    private static async Task<Flag> FlagAsync(PortalHost host, Guid id)
    {
        await using var db = host.OpenDb();
        return await db.Flags.AsNoTracking().SingleAsync(f => f.Id == id);
    }
}
