using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>The one intake: what is stored, what is asked, what is refused, and that a repeat is not a second reading.</summary>
public class RecordReadingsTests
{
    [Theory, BothDatabases]
    public async Task An_accepted_reading_is_stored_with_its_losses_and_its_unjudged_fact(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;
        var at = host.Now.AddMinutes(-20);
        var sent = Sent.Water(tank, at, 9.4) with { Seen = new Observation { Moving = true, DeadEggs = 2, DeadAlevins = 0 } };

        var outcome = Assert.Single(await host.RecordAsync(sent));

        Assert.IsType<IntakeOutcome.Accepted>(outcome);
        await using var db = host.OpenDb();
        var stored = await db.Readings.SingleAsync();
        Assert.Equal(new Observation { WaterC = 9.4, Moving = true, DeadEggs = 2, DeadAlevins = 0 }, stored.Seen);
        Assert.Equal((at, host.Now, "9.4", TemperatureUnit.C), (stored.At, stored.ReceivedAt, stored.TypedWater, stored.TypedUnit));
        Assert.True(stored.Counts);
        Assert.Equal([(LedgerKind.EggLoss, 2)], await Sent.LossesAsync(db));
        var fact = await db.UnjudgedFacts.SingleAsync();
        Assert.Equal((tank.Id, at), (fact.TankId, fact.At));
    }

    [Theory, BothDatabases]
    public async Task The_same_reading_again_is_a_duplicate_however_its_number_is_written(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;
        var sent = Sent.Typed(tank, host.Now, "9.40", 9.40, TemperatureUnit.C) with { Seen = new Observation { DeadEggs = 1 } };
        await host.AcceptAsync(sent);

        var outcomes = await host.RecordAsync(sent, sent with { Water = sent.Water! with { Text = "9.4" } });

        Assert.All(outcomes, o => Assert.Equal(new IntakeOutcome.Duplicate(sent.SenderId), o));
        await using var db = host.OpenDb();
        Assert.Equal("9.40", (await db.Readings.SingleAsync()).TypedWater);
        Assert.Single(await Sent.LossesAsync(db));
        Assert.Single(await db.UnjudgedFacts.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task An_id_that_belongs_to_another_reading_is_rejected_and_the_first_stays(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;
        var sent = Sent.Water(tank, host.Now, 9.4);
        await host.AcceptAsync(sent);

        var outcomes = await host.RecordAsync(
            sent with { Water = sent.Water! with { Value = 9.5 } },
            sent with { At = sent.At.AddMinutes(-1) },
            sent with { Seen = new Observation { Clear = true } });

        Assert.All(outcomes, o => Assert.Equal("id", Assert.Single(Assert.IsType<IntakeOutcome.Rejected>(o).Errors).Key));
        await using var db = host.OpenDb();
        Assert.Equal(9.4, (await db.Readings.SingleAsync()).Seen.WaterC);
    }

    [Theory, BothDatabases]
    public async Task An_id_twice_in_one_batch_is_stored_once(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;
        var sent = Sent.Water(tank, host.Now, 9.4);

        var outcomes = await host.RecordAsync(sent, sent, sent with { Seen = new Observation { Fed = true } });

        Assert.IsType<IntakeOutcome.Accepted>(outcomes[0]);
        Assert.IsType<IntakeOutcome.Duplicate>(outcomes[1]);
        Assert.IsType<IntakeOutcome.Rejected>(outcomes[2]);
        await using var db = host.OpenDb();
        Assert.Single(await db.Readings.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task The_same_id_in_another_tank_is_another_reading(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var sent = Sent.Water(world.One.Tanks[0], host.Now, 9.4);

        await host.AcceptAsync(sent, sent with { TankId = world.One.Tanks[1].Id });

        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_is_refused_and_not_stored(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;

        var outcomes = await host.RecordAsync(
            Sent.Typed(tank, host.Now, "512", 512, TemperatureUnit.C),
            Sent.Typed(tank, host.Now, "512", 512, TemperatureUnit.F),
            Sent.Seen(tank, host.Now, new Observation { DeadEggs = -1 }),
            Sent.Seen(tank, host.Now, new Observation { Ph = 15 }),
            Sent.Seen(tank, host.Now, new Observation()),
            Sent.Water(tank, host.Now.AddMinutes(11), 9.4));

        Assert.Equal(
            ["waterC", "waterF", "deadEggs", "ph", "reading", "at"],
            outcomes.Select(o => Assert.Single(Assert.IsType<IntakeOutcome.Rejected>(o).Errors).Key));
        await using var db = host.OpenDb();
        Assert.Empty(await db.Readings.ToListAsync());
        Assert.Empty(await db.UnjudgedFacts.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_clock_a_little_ahead_is_taken_as_now(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;

        await host.AcceptAsync(Sent.Water(tank, host.Now.AddMinutes(10), 9.4));

        await using var db = host.OpenDb();
        Assert.Equal(host.Now, (await db.Readings.SingleAsync()).At);
    }

    [Theory, BothDatabases]
    public async Task A_batch_is_judged_in_the_order_of_reading_and_answered_in_the_order_of_sending(DatabaseKind kind)
    {
        var (host, tank) = await OneTankAsync(kind);
        await using var _ = host;

        // Only from the reading before it in time can the middle one be seen to jump.
        var outcomes = await host.RecordAsync(
            Sent.Water(tank, host.Now.AddMinutes(-10), 19),
            Sent.Water(tank, host.Now.AddMinutes(-40), 9),
            Sent.Water(tank, host.Now, 9.2));

        Assert.Equal(Doubt.ImpossibleJump, Assert.IsType<IntakeOutcome.Asked>(outcomes[0]).Doubt);
        Assert.Equal(9, Assert.IsType<IntakeOutcome.Accepted>(outcomes[1]).Reading.Seen.WaterC);
        Assert.Equal(9.2, Assert.IsType<IntakeOutcome.Accepted>(outcomes[2]).Reading.Seen.WaterC);
    }

    private static async Task<(PortalHost Host, Tank Tank)> OneTankAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        return (host, world.One.Tanks[0]);
    }
}
