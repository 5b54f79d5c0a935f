using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A lot that dies in several rooms stands in the round once, over its tanks.</summary>
public class SharedCauseFlagTests
{
    [Theory, BothDatabases]
    public async Task Three_of_eight_rooms_of_a_lot_are_one_flag_that_names_the_lot(DatabaseKind kind)
    {
        var (host, world, tanks) = await EightRoomsAsync(kind);
        await using var _ = host;
        await LoseAsync(host, tanks[..3], 30);

        await host.SweepAsync();
        await host.SweepAsync();

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.SharedCause));
        Assert.Equal((null, SharedBy.Lot, "L1", FlagState.Open), (flag.TankId, flag.CauseBy, flag.CauseCode, flag.State));
        Assert.Equal([FlagDeed.Opened], await host.DeedsAsync(flag));
        var evidence = Assert.IsType<SharedCauseEvidence>(flag.Evidence);
        Assert.Equal(tanks[..3].Select(t => t.Code).Order(), evidence.Tanks.Select(t => t.Code));
        var row = Assert.Single((await RoundAsync(host, world)).Rows.OfType<RoundShared>());
        Assert.Contains("L1", row.Leading.Reason, StringComparison.Ordinal);
        Assert.InRange((await RoundAsync(host, world)).Rows.Sum(r => r.ExpectedLoss), 0, tanks.Count * 150);
    }

    [Theory, BothDatabases]
    public async Task The_API_gives_it_without_a_tank_and_with_its_rooms_and_cause(DatabaseKind kind)
    {
        var (host, world, tanks) = await EightRoomsAsync(kind);
        await using var _ = host;
        await LoseAsync(host, tanks[..3], 30);
        await host.SweepAsync();

        using var client = host.ClientWithKey(world.One.CoordinatorKey);
        using var answer = JsonDocument.Parse(await client.GetStringAsync("/api/v1/flags?state=open"));

        var shared = Assert.Single(answer.RootElement.GetProperty("flags").EnumerateArray(), f => f.GetProperty("kind").GetString() == "shared-cause");
        Assert.Equal(JsonValueKind.Null, shared.GetProperty("tank").ValueKind);
        Assert.Equal(("lot", "L1"), (shared.GetProperty("cause").GetProperty("by").GetString(), shared.GetProperty("cause").GetProperty("code").GetString()));
        Assert.Equal(tanks[..3].Select(t => t.Code).Order(), shared.GetProperty("tanks").EnumerateArray().Select(t => t.GetString()));
    }

    [Theory, BothDatabases]
    public async Task One_room_alone_is_no_shared_cause(DatabaseKind kind)
    {
        var (host, _, tanks) = await EightRoomsAsync(kind);
        await using var host1 = host;
        await LoseAsync(host, tanks[..1], 30);

        await host.SweepAsync();

        Assert.Empty(await host.FlagsAsync(FlagKind.SharedCause));
        Assert.Single(await host.FlagsAsync(FlagKind.DieOff));
    }

    [Theory, BothDatabases]
    public async Task Closed_by_a_person_it_comes_back_only_with_newer_losses(DatabaseKind kind)
    {
        var (host, world, tanks) = await EightRoomsAsync(kind);
        await using var _ = host;
        await LoseAsync(host, tanks[..3], 30);
        await host.SweepAsync();
        var flag = Assert.Single(await host.FlagsAsync(FlagKind.SharedCause));
        var user = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);
        var close = new FlagAct(flag.Id, 0, FlagDeed.Closed, "the agency sends new eggs", Outcome.LossAccepted, TroubleCause.Eggs);
        Assert.IsType<ActOutcome.Done>(await host.CallAsync<ActOnFlag, ActOutcome>(acts => acts.ActAsync(close, user, CancellationToken.None)));

        await TouchAsync(host, tanks[7]);
        await host.SweepAsync();
        Assert.DoesNotContain(await host.FlagsAsync(FlagKind.SharedCause), f => f.State == FlagState.Open);

        await LoseAsync(host, tanks[3..4], 30);
        await host.SweepAsync();
        Assert.Contains(await host.FlagsAsync(FlagKind.SharedCause), f => f.State == FlagState.Open);
    }

    private static Task<RoundNow> RoundAsync(PortalHost host, TestWorld world) =>
        host.CallAsync<Round, RoundNow>(round => round.LoadAsync(world.One.Programme.Id, CancellationToken.None));

    private static Task TouchAsync(PortalHost host, Tank tank)
    {
        host.Time.Advance(TimeSpan.FromMinutes(5));
        return host.AcceptAsync(Sent.Seen(tank, host.Now, new Observation { WaterC = null, Moving = true, DeadAlevins = 0 }));
    }

    /// <summary>So many dead counted in each of these tanks now.</summary>
    private static async Task LoseAsync(PortalHost host, IReadOnlyList<Tank> tanks, int dead)
    {
        host.Time.Advance(TimeSpan.FromMinutes(5));
        await host.AcceptAsync([.. tanks.Select(t => Sent.Seen(t, host.Now.AddMinutes(-1), new Observation { DeadAlevins = dead }))]);
        await host.JudgeAsync();
    }

    /// <summary>Eight rooms with the same lot, each counted yesterday with nobody dead.</summary>
    private static async Task<(PortalHost Host, TestWorld World, List<Tank> Tanks)> EightRoomsAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var p = world.One;
        List<Tank> tanks = [.. p.Tanks];
        await host.SeedAsync(db =>
        {
            for (var i = 3; i <= 8; i++)
            {
                var tank = new Tank
                {
                    Id = Guid.NewGuid(),
                    ProgrammeId = p.Programme.Id,
                    ClassroomId = p.Rooms[i % 2].Id,
                    Code = $"A00{i}",
                    Litres = 208,
                    SetPointC = 10.5,
                    ChillerBatch = $"C{i}",
                };
                tanks.Add(tank);
                db.AddRange(tank, new Receipt
                {
                    Id = Guid.NewGuid(),
                    SeasonId = p.Season.Id,
                    TankId = tank.Id,
                    LotId = p.Lot.Id,
                    At = TestProgramme.DeliveredAt,
                    Run = $"R{i}",
                    Eggs = TestProgramme.Eggs,
                    CountedBy = CountMethod.Photo,
                });
                db.Add(new LedgerEntry
                {
                    SeasonId = p.Season.Id,
                    TankId = tank.Id,
                    Kind = LedgerKind.Received,
                    Count = TestProgramme.Eggs,
                    At = TestProgramme.DeliveredAt,
                    EnteredAt = TestProgramme.DeliveredAt,
                });
            }
        });
        await host.AcceptAsync([.. tanks.Select(t => Sent.Water(t, host.Now.AddDays(-1), 10.5) with
        {
            Seen = new Observation { Moving = true, DeadAlevins = 0, Hatched = Share.All },
        })]);
        await host.SweepAsync();
        Assert.Empty(await host.FlagsAsync(FlagKind.SharedCause));
        return (host, world, tanks);
    }
}
