using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.Spares;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The nearest spare stands in the reason, and is promised once.</summary>
public class SpareTests
{
    [Theory, BothDatabases]
    public async Task The_nearest_fitting_spare_is_in_the_reason_and_goes_to_one_tank_only(DatabaseKind kind)
    {
        var (host, world, spare) = await TwoWarmAsync(kind);
        await using var _ = host;
        var calls = (await RoundAsync(host, world)).Calls;
        Assert.All(calls, c => Assert.Contains("spare chiller", c.Leading.Reason, StringComparison.Ordinal));
        // Both tanks stand at places that are known; a tenth of a degree of latitude is 17 minutes at the default speed.
        Assert.Contains("17 min away", calls.Single(c => c.Place.Tank.Id == world.One.Tanks[0].Id).Leading.Reason, StringComparison.Ordinal);

        var first = await ReserveAsync(host, world, calls[0], spare);
        var second = await ReserveAsync(host, world, calls[1], spare);

        Assert.IsType<ActOutcome.Done>(first);
        Assert.Contains("promised to another", Assert.IsType<ActOutcome.Refused>(second).Why, StringComparison.Ordinal);
        var after = (await RoundAsync(host, world)).Calls;
        Assert.Contains("reserved chiller", after.Single(c => c.Place.Tank.Id == calls[0].Place.Tank.Id).Leading.Reason, StringComparison.Ordinal);
        Assert.Empty(after.Single(c => c.Place.Tank.Id == calls[1].Place.Tank.Id).Spares);
    }

    [Theory, BothDatabases]
    public async Task Two_who_reach_for_the_same_spare_at_once_get_it_once(DatabaseKind kind)
    {
        var (host, world, spare) = await TwoWarmAsync(kind);
        await using var _ = host;
        var calls = (await RoundAsync(host, world)).Calls;

        var outcomes = await Task.WhenAll(calls.Select(c => Task.Run(() => ReserveAsync(host, world, c, spare))));

        Assert.Single(outcomes.OfType<ActOutcome.Done>());
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.FlagEvents.CountAsync(e => e.Deed == FlagDeed.SpareReserved));
        Assert.NotNull((await db.KitItems.SingleAsync(k => k.Id == spare.Id)).ReservedForTankId);
    }

    [Theory, BothDatabases]
    public async Task A_spare_that_outlives_its_trouble_is_asked_about_until_it_is_given_back(DatabaseKind kind)
    {
        var (host, world, spare) = await TwoWarmAsync(kind);
        await using var _ = host;
        var call = (await RoundAsync(host, world)).Calls[0];
        await ReserveAsync(host, world, call, spare);
        Assert.Empty(await ForgottenAsync(host, world));

        await CloseAllAsync(host, world, call.Place.Tank.Id);
        var forgotten = Assert.Single(await ForgottenAsync(host, world));
        Assert.Equal((spare.Serial, call.Place.Tank.Code), (forgotten.Item.Serial, forgotten.TankCode));

        Assert.IsType<ActOutcome.Done>(await host.CallAsync<ReserveSpare, ActOutcome>(
            r => r.GiveBackAsync(forgotten.Flag.Id, forgotten.Flag.Turn, spare.Id, User(world), CancellationToken.None)));
        Assert.Empty(await ForgottenAsync(host, world));
    }

    private static async Task CloseAllAsync(PortalHost host, TestWorld world, Guid tankId)
    {
        await using var db = host.OpenDb();
        foreach (var flag in await db.Flags.AsNoTracking().Where(f => f.TankId == tankId && f.State == FlagState.Open).ToListAsync())
        {
            var act = new FlagAct(flag.Id, flag.Turn, FlagDeed.Closed, Outcome: Outcome.FixedByPhone, Cause: TroubleCause.RoomOrSun);
            Assert.IsType<ActOutcome.Done>(await host.CallAsync<ActOnFlag, ActOutcome>(a => a.ActAsync(act, User(world), CancellationToken.None)));
        }
    }

    private static async Task<IReadOnlyList<ForgottenSpare>> ForgottenAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        return await ForgottenSpares.LoadAsync(db, world.One.Programme.Id, CancellationToken.None);
    }

    [Theory, BothDatabases]
    public async Task A_spare_given_back_is_offered_again(DatabaseKind kind)
    {
        var (host, world, spare) = await TwoWarmAsync(kind);
        await using var _ = host;
        var call = (await RoundAsync(host, world)).Calls[0];
        await ReserveAsync(host, world, call, spare);
        var flag = call.Leading.Flag;

        var back = await host.CallAsync<ReserveSpare, ActOutcome>(s => s.GiveBackAsync(flag.Id, flag.Turn + 1, spare.Id, User(world), CancellationToken.None));

        Assert.IsType<ActOutcome.Done>(back);
        Assert.All((await RoundAsync(host, world)).Calls, c => Assert.Single(c.Spares));
    }

    [Theory, BothDatabases]
    public async Task Another_programmes_spare_is_not_there(DatabaseKind kind)
    {
        var (host, world, spare) = await TwoWarmAsync(kind);
        await using var _ = host;
        var call = (await RoundAsync(host, world)).Calls[0];
        var stranger = new CurrentUser(world.Two.People[Role.Coordinator].Id, world.Two.Programme.Id, Role.Coordinator, null);

        var outcome = await host.CallAsync<ReserveSpare, ActOutcome>(
            s => s.ReserveAsync(call.Leading.Flag.Id, 0, spare.Id, stranger, CancellationToken.None));

        Assert.IsType<ActOutcome.Refused>(outcome);
    }

    private static async Task<(PortalHost Host, TestWorld World, KitItem Spare)> TwoWarmAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var depot = new KitDepot { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, Name = "Shed", Latitude = 44.1, Longitude = -113 };
        var spare = new KitItem
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            Kind = KitKind.Chiller,
            Serial = "SP-1",
            Make = "quarter horse",
            DepotId = depot.Id,
            MostLitres = 210,
        };
        await host.SeedAsync(db =>
        {
            db.AddRange(depot, spare);
            foreach (var (i, school) in db.Schools.Where(s => s.ProgrammeId == world.One.Programme.Id).OrderBy(s => s.Name).AsEnumerable().Index())
            {
                (school.Latitude, school.Longitude) = (44 - i, -113);
            }
        });
        await host.AcceptAsync([.. world.One.Tanks.Select(t => Sent.Water(t, host.Now.AddMinutes(-5), 16))]);
        await host.JudgeAsync();
        return (host, world, spare);
    }

    private static CurrentUser User(TestWorld world) => new(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);

    private static Task<RoundNow> RoundAsync(PortalHost host, TestWorld world) =>
        host.CallAsync<Round, RoundNow>(round => round.LoadAsync(world.One.Programme.Id, CancellationToken.None));

    private static Task<ActOutcome> ReserveAsync(PortalHost host, TestWorld world, RoundCall call, KitItem spare) =>
        host.CallAsync<ReserveSpare, ActOutcome>(
            s => s.ReserveAsync(call.Leading.Flag.Id, call.Leading.Flag.Turn, spare.Id, User(world), CancellationToken.None));
}
