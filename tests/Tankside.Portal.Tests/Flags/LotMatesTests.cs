using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Places;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What the other tanks of a lot lost, summed once for whoever goes through all of them.</summary>
public class LotMatesTests
{
    [Theory, BothDatabases]
    public async Task Each_tank_is_told_what_the_others_of_its_lot_lost(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var held = await LotsAsync(host, world);
        var tanks = held.Where(h => h.Value.LotId == world.One.Lot.Id).Select(h => h.Key).ToList();
        Assert.True(tanks.Count >= 2);
        foreach (var (tank, dead) in tanks.Zip([3, 5, 7, 11]))
        {
            await LoseAsync(host, world.One.Tanks.Single(t => t.Id == tank), dead);
        }

        await host.JudgeAsync();

        await using var db = host.OpenDb();
        var mates = await LotMates.LoadAsync(db, [.. held.Values], withLosses: true, CancellationToken.None);
        var deaths = tanks.Zip([3, 5, 7, 11]).ToDictionary(t => t.First, t => t.Second);
        Assert.All(tanks, tank => Assert.Equal(deaths.Values.Sum() - deaths[tank], mates.LossesBeside(world.One.Lot.Id, tank).Deaths));
        Assert.All(tanks, tank => Assert.True(mates.LossesBeside(world.One.Lot.Id, tank).FishDays > 0));
    }

    [Theory, BothDatabases]
    public async Task A_lot_is_asked_for_once_however_many_groups_of_its_tanks_come(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var held = await LotsAsync(host, world);
        var asked = new Asked();
        var options = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(options, host.Database).AddInterceptors(asked);
        await using var db = new HatcheryDb(options.Options);
        var mates = new LotMates();

        await mates.LookUpAsync(db, held.Values.Take(1), withLosses: true, CancellationToken.None);
        var first = asked.Questions;
        await mates.LookUpAsync(db, held.Values.Where(l => l.LotId == held.Values.First().LotId), withLosses: true, CancellationToken.None);

        Assert.True(first > 0);
        Assert.Equal(first, asked.Questions);
    }

    private static async Task<Dictionary<Guid, LotInTank>> LotsAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        List<Guid> ids = [.. world.One.Tanks.Select(t => t.Id)];
        return await LotsInTanks.LoadAsync(db, ids, await Surroundings.LoadAsync(db, ids, CancellationToken.None, host.Now), CancellationToken.None);
    }

    private static Task LoseAsync(PortalHost host, Tank tank, int eggs) =>
        host.AcceptAsync(Sent.Seen(tank, host.Now.AddHours(-1), new Observation { DeadEggs = eggs }));

    private sealed class Asked : DbCommandInterceptor
    {
        public int Questions { get; private set; }

        public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
            DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
        {
            Questions++;
            return ValueTask.FromResult(result);
        }
    }
}
