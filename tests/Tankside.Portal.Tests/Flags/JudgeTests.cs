using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>From stored readings to flags: opened once, cleared by newer facts, never by older ones.</summary>
public class JudgeTests
{
    [Theory, BothDatabases]
    public async Task A_warm_reading_opens_one_flag_and_judging_again_opens_no_second(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await host.AcceptAsync(Sent.Water(tank, host.Now.AddMinutes(-5), 13));

        await host.JudgeAsync();
        await host.JudgeAsync();
        await host.SweepAsync();

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.Warm));
        Assert.Equal((tank.Id, FlagState.Open, Urgency.Today), (flag.TankId, flag.State, flag.Urgency));
        Assert.Equal((world.One.Programme.Id, host.Now.AddMinutes(-5)), (flag.ProgrammeId, flag.StandsOn));
        Assert.Equal([FlagDeed.Opened], await host.DeedsAsync(flag));
        await using var db = host.OpenDb();
        Assert.Empty(await db.UnjudgedFacts.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_warmer_reading_raises_the_urgency_of_the_same_flag(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 13);
        await using var _ = host;

        await LaterAsync(host, Sent.Water(tank, host.Now, 16));

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.Warm));
        Assert.Equal((Urgency.ActNow, 16), (flag.Urgency, Assert.IsType<TemperatureEvidence>(flag.Evidence).WaterC));
        Assert.Equal([FlagDeed.Opened, FlagDeed.Updated], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_cool_reading_of_a_logger_clears_it(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 16);
        await using var _ = host;

        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6));

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.Warm));
        Assert.Equal((FlagState.Settled, Settlement.Cleared, host.Now), (flag.State, flag.Settlement, flag.SettledAt));
        Assert.Equal([FlagDeed.Opened, FlagDeed.Cleared], await host.DeedsAsync(flag));
    }

    [Theory, BothDatabases]
    public async Task A_class_alone_does_not_clear_what_needs_acting_on_now(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 16);
        await using var _ = host;

        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6, ReadingSource.Class));
        await host.SweepAsync();

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.Warm));
        Assert.Equal((FlagState.Open, host.Now), (flag.State, flag.SaidOverAt));
        Assert.Equal([FlagDeed.Opened, FlagDeed.SaidOver], await host.DeedsAsync(flag));

        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6, ReadingSource.PhoneCall));

        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
    }

    [Theory, BothDatabases]
    public async Task A_class_alone_clears_what_nobody_took_and_can_wait(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 13);
        await using var _ = host;

        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6, ReadingSource.Class));

        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
    }

    [Theory, BothDatabases]
    public async Task A_class_alone_does_not_clear_what_a_person_took(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 13);
        await using var _ = host;
        await host.ChangeFlagAsync(FlagKind.Warm, f => f.TakenBy = Guid.NewGuid());

        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6, ReadingSource.Class));

        Assert.Equal(FlagState.Open, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
    }

    [Theory, BothDatabases]
    public async Task An_adults_word_on_something_else_is_no_word_on_the_water(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 16);
        await using var _ = host;
        await LaterAsync(host, Sent.Water(tank, host.Now, 10.6, ReadingSource.Class));

        await LaterAsync(host, Sent.Seen(tank, host.Now, new Observation { RoomC = 21 }));

        Assert.Equal(FlagState.Open, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
    }

    [Theory, BothDatabases]
    public async Task A_late_old_reading_never_clears_a_newer_flag(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 13);
        await using var _ = host;

        await LaterAsync(host, Sent.Water(tank, host.Now.AddDays(-1), 10));

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.Warm));
        Assert.Equal((FlagState.Open, null), (flag.State, flag.SaidOverAt));
    }

    [Theory, BothDatabases]
    public async Task A_correction_of_the_only_bad_reading_clears_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var slip = Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-5), 16);
        await host.AcceptAsync(slip);
        await host.JudgeAsync();

        await LaterAsync(host, Sent.Water(world.One.Tanks[0], slip.At, 10.6) with { Corrects = slip.SenderId });

        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
    }

    [Theory, BothDatabases]
    public async Task A_flag_that_a_person_closed_is_raised_again_only_by_newer_facts(DatabaseKind kind)
    {
        var (host, tank) = await WithWarmTankAsync(kind, 13);
        await using var _ = host;
        await host.ChangeFlagAsync(FlagKind.Warm, f =>
        {
            f.State = FlagState.Settled;
            f.Settlement = Settlement.Closed;
            f.SettledAt = host.Now;
        });

        await LaterAsync(host, Sent.Water(tank, host.Now.AddDays(-1), 12.9));
        await host.SweepAsync();
        Assert.Single(await host.FlagsAsync(FlagKind.Warm));

        await LaterAsync(host, Sent.Water(tank, host.Now, 13.1));

        Assert.Equal([FlagState.Settled, FlagState.Open], (await host.FlagsAsync(FlagKind.Warm)).Select(f => f.State));
    }

    [Theory, BothDatabases]
    public async Task A_doubtful_reading_is_not_judged_before_somebody_answers(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.RecordAsync(Sent.Water(world.One.Tanks[0], host.Now, 25));

        await host.JudgeAsync();
        await host.SweepAsync();

        Assert.Empty(await host.FlagsAsync(FlagKind.Warm));
    }

    private static async Task<(PortalHost Host, Tank Tank)> WithWarmTankAsync(DatabaseKind kind, double celsius)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-5), celsius - 0.5), Sent.Water(world.One.Tanks[0], host.Now, celsius));
        await host.JudgeAsync();
        Assert.Equal(FlagState.Open, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
        return (host, world.One.Tanks[0]);
    }

    /// <summary>Two hours later one more reading comes, read then unless it says otherwise, and is judged.</summary>
    private static async Task LaterAsync(PortalHost host, Portal.Readings.IncomingReading reading)
    {
        var wasNow = host.Now;
        host.Time.Advance(TimeSpan.FromHours(2));
        await host.AcceptAsync(reading.At == wasNow ? reading with { At = host.Now } : reading);
        await host.JudgeAsync();
    }
}
