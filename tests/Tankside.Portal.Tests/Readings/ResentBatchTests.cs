using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>A sender that heard no answer sends again, and several senders may send the same at once.</summary>
public class ResentBatchTests
{
    private const int Senders = 4, Size = 25;

    [Theory, BothDatabases]
    public async Task A_batch_sent_by_several_at_once_is_stored_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var batch = Enumerable.Range(0, Size).Select(i =>
            Sent.Water(world.One.Tanks[i % 2], host.Now.AddMinutes(-i), 9.5) with { Seen = new Observation { DeadEggs = 1 } }).ToArray();

        var outcomes = (await Task.WhenAll(Enumerable.Range(0, Senders).Select(_ => Task.Run(() => host.RecordAsync(batch))))).SelectMany(o => o).ToList();

        Assert.Equal(Size, outcomes.OfType<IntakeOutcome.Accepted>().Count());
        Assert.Equal(Size * (Senders - 1), outcomes.OfType<IntakeOutcome.Duplicate>().Count());
        await using var db = host.OpenDb();
        Assert.Equal(batch.Select(b => b.SenderId).Order(), (await db.Readings.Select(r => r.SenderId).ToListAsync()).Order());
        Assert.Equal(Size, await db.Ledger.Where(e => e.Reading != null).SumAsync(e => e.Count));
        // Of each of the two tanks' day the first and the last.
        Assert.Equal(4, await db.UnjudgedFacts.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_large_batch_sent_again_is_known_again_with_what_is_new_changed_or_corrected_in_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var stored = Enumerable.Range(0, 80).Select(i => Sent.Water(world.One.Tanks[i % 2], host.Now.AddMinutes(-i), 9.5)).ToArray();
        Assert.All(await host.RecordAsync(stored), o => Assert.IsType<IntakeOutcome.Accepted>(o));
        var correction = Sent.Water(world.One.Tanks[0], stored[0].At, 9.7) with { Corrects = stored[0].SenderId };
        Assert.IsType<IntakeOutcome.Accepted>((await host.RecordAsync(correction))[0]);
        var changed = Sent.Water(world.One.Tanks[1], stored[1].At, 9.9) with { SenderId = stored[1].SenderId };
        var added = Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-100), 9.6);

        var repeats = await host.RecordAsync([.. stored, added]);
        var mixed = await host.RecordAsync([stored[0], changed, .. stored[2..], correction, added]);

        Assert.All(repeats.SkipLast(1), o => Assert.IsType<IntakeOutcome.Duplicate>(o));
        Assert.IsType<IntakeOutcome.Accepted>(repeats[^1]);
        Assert.Contains("id", Assert.IsType<IntakeOutcome.Rejected>(mixed[1]).Errors.Keys);
        Assert.All(mixed.Where((_, i) => i != 1), o => Assert.IsType<IntakeOutcome.Duplicate>(o));
        await using var db = host.OpenDb();
        Assert.Equal(82, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Batches_that_overlap_lose_nothing_and_double_nothing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var all = Enumerable.Range(0, Size).Select(i => Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-i), 9.5)).ToArray();

        // Each sender has its own window, shifted by five; everything from 0 to 24 is in one of them.
        await Task.WhenAll(Enumerable.Range(0, Senders).Select(n => Task.Run(() => host.RecordAsync(all[(n * 5)..((n * 5) + 10)]))));

        await using var db = host.OpenDb();
        Assert.Equal(all.Select(b => b.SenderId).Order(), (await db.Readings.Select(r => r.SenderId).ToListAsync()).Order());
    }

    [Theory, BothDatabases]
    public async Task One_bad_reading_in_a_batch_does_not_hold_up_the_others(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var outcomes = await host.RecordAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-3), 9.4),
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-2), 512),
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-1), 9.5));

        Assert.IsType<IntakeOutcome.Rejected>(outcomes[1]);
        await using var db = host.OpenDb();
        Assert.Equal([9.4, 9.5], await db.Readings.OrderBy(r => r.At).Select(r => r.Seen.WaterC!.Value).ToListAsync());
    }
}
