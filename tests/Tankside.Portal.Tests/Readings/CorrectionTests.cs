using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>A correction is a later reading that names the earlier one; the earlier one is kept.</summary>
public class CorrectionTests
{
    [Theory, BothDatabases]
    public async Task A_correction_keeps_the_old_reading_and_takes_back_its_losses(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;
        var correction = Correcting(first, new Observation { DeadEggs = 5, DeadFry = 1 });

        await host.AcceptAsync(correction);

        await using var db = host.OpenDb();
        var old = await db.Readings.SingleAsync(r => r.SenderId == first.SenderId);
        Assert.Equal(new Observation { WaterC = 9, DeadEggs = 3, DeadAlevins = 1 }, old.Seen);
        Assert.Equal(correction.SenderId, old.CorrectedBy);
        Assert.False(old.Counts);
        Assert.Equal(
            [
                (LedgerKind.EggLoss, 3), (LedgerKind.AlevinLoss, 1), (LedgerKind.EggLoss, -3), (LedgerKind.AlevinLoss, -1),
                (LedgerKind.EggLoss, 5), (LedgerKind.FryLoss, 1),
            ],
            await Sent.LossesAsync(db));
    }

    [Theory, BothDatabases]
    public async Task A_correction_to_another_day_leaves_both_days_to_be_judged(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;
        await host.JudgeAsync();

        await host.AcceptAsync(Correcting(first, new Observation { DeadEggs = 3 }) with { At = first.At.AddDays(-1) });

        await using var db = host.OpenDb();
        Assert.Equal(
            [first.At.AddDays(-1), first.At],
            await db.UnjudgedFacts.OrderBy(f => f.At).Select(f => f.At).ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_chain_of_corrections_leaves_only_the_last_ones_losses(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;
        var second = Correcting(first, new Observation { DeadEggs = 8 });
        await host.AcceptAsync(second);

        await host.AcceptAsync(Correcting(second, new Observation { DeadEggs = 2 }));

        await using var db = host.OpenDb();
        Assert.Equal(2, (await Sent.LossesAsync(db)).Sum(l => l.Count));
        Assert.Equal(2, (await db.Readings.ToListAsync()).Single(r => r.Counts).Seen.DeadEggs);
    }

    [Theory, BothDatabases]
    public async Task The_right_value_for_an_asked_reading_takes_nothing_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var asked = Sent.Water(world.One.Tanks[0], host.Now, 52) with { Seen = new Observation { DeadEggs = 4 } };
        await host.RecordAsync(asked);

        await host.AcceptAsync(Correcting(asked, new Observation { DeadEggs = 4 }) with { Water = asked.Water! with { Text = "11.1", Value = 11.1 } });

        await using var db = host.OpenDb();
        Assert.Equal([(LedgerKind.EggLoss, 4)], await Sent.LossesAsync(db));
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_corrected_is_rejected(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Correcting(first, new Observation { DeadEggs = 4 }));
        await using var db = host.OpenDb();
        var otherTank = await db.Tanks.Where(t => t.Id != first.TankId).Select(t => t.Id).FirstAsync();

        var outcomes = await host.RecordAsync(
            Correcting(first, new Observation { DeadEggs = 5 }),
            Correcting(first, new Observation { DeadEggs = 5 }) with { Corrects = Guid.NewGuid() },
            Correcting(first, new Observation { DeadEggs = 5 }) with { TankId = otherTank });

        Assert.All(outcomes, o => Assert.Equal("corrects", Assert.Single(Assert.IsType<IntakeOutcome.Rejected>(o).Errors).Key));
        Assert.Equal(4, (await Sent.LossesAsync(db)).Sum(l => l.Count));
    }

    [Theory, BothDatabases]
    public async Task Of_two_corrections_in_one_batch_the_first_wins(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;

        var outcomes = await host.RecordAsync(
            Correcting(first, new Observation { DeadEggs = 5 }),
            Correcting(first, new Observation { DeadEggs = 8 }));

        Assert.IsType<IntakeOutcome.Accepted>(outcomes[0]);
        Assert.Equal("corrects", Assert.Single(Assert.IsType<IntakeOutcome.Rejected>(outcomes[1]).Errors).Key);
        await using var db = host.OpenDb();
        Assert.Equal(5, (await Sent.LossesAsync(db)).Sum(l => l.Count));
    }

    [Theory, BothDatabases]
    public async Task Of_several_corrections_at_once_exactly_one_wins(DatabaseKind kind)
    {
        var (host, first) = await WithReadingAsync(kind);
        await using var _ = host;
        var corrections = Enumerable.Range(10, 4).Select(dead => Correcting(first, new Observation { DeadEggs = dead })).ToList();

        var outcomes = await Task.WhenAll(corrections.Select(c => Task.Run(async () => (await host.RecordAsync(c))[0])));

        var winner = Assert.Single(outcomes.OfType<IntakeOutcome.Accepted>()).Reading;
        Assert.All(outcomes.OfType<IntakeOutcome.Rejected>(), r => Assert.Equal("corrects", Assert.Single(r.Errors).Key));
        Assert.Equal(3, outcomes.OfType<IntakeOutcome.Rejected>().Count());
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Readings.CountAsync());
        Assert.Equal(winner.SenderId, (await db.Readings.SingleAsync(r => r.SenderId == first.SenderId)).CorrectedBy);
        Assert.Equal(winner.Seen.DeadEggs, (await Sent.LossesAsync(db)).Sum(l => l.Count));
    }

    private static async Task<(PortalHost Host, IncomingReading First)> WithReadingAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var first = Sent.Water(world.One.Tanks[0], host.Now.AddHours(-1), 9) with { Seen = new Observation { DeadEggs = 3, DeadAlevins = 1 } };
        await host.AcceptAsync(first);
        return (host, first);
    }

    private static IncomingReading Correcting(IncomingReading earlier, Observation seen) =>
        earlier with { SenderId = Guid.NewGuid(), Corrects = earlier.SenderId, Seen = seen };
}
