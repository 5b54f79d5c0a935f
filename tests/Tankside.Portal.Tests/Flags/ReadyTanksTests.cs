using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The list is gone through at the tank, and whoever lets eggs come all the same signs for it.</summary>
public class ReadyTanksTests
{
    private static readonly Dictionary<string, string> All = new[] { "CoilDown", "ProbeInWater", "TubesFree", "FilterCovered", "GravelClean", "WaterSafe" }
        .ToDictionary(tick => "Input." + tick, _ => "true");

    [Theory, BothDatabases]
    public async Task A_tank_is_a_go_once_it_was_gone_through_and_read_cold_for_three_days(DatabaseKind kind)
    {
        var (host, world, tank) = await WithAnEmptyTankAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        Assert.Contains("Not ready: no adult has gone through the list, and 1 thing more.", await teacher.ReadAsync("/tanks/A950/ready"), StringComparison.Ordinal);

        await teacher.PostFormAsync("/tanks/A950/ready", new Dictionary<string, string>(All) { ["Input.FilterCovered"] = "false" }, "list");
        Assert.Contains("the filter plate is not covered with gravel", await teacher.ReadAsync("/tanks/A950/ready"), StringComparison.Ordinal);

        await host.AcceptAsync([.. Enumerable.Range(0, 6).Select(d => Sent.Water(tank, host.Now.AddDays(-d), 10.5))]);
        host.Time.Advance(TimeSpan.FromMinutes(5));
        await teacher.PostFormAsync("/tanks/A950/ready", All, "list");
        Assert.Contains("A950 is ready for eggs.", await teacher.ReadAsync("/tanks/A950/ready"), StringComparison.Ordinal);
        Assert.Contains("good to go", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/lots/ready"), StringComparison.Ordinal);
        using var db = host.OpenDb();
        Assert.Equal(2, db.ReadyChecks.Count());
    }

    [Theory, BothDatabases]
    public async Task A_coordinator_signs_with_a_reason_takes_it_back_and_a_teacher_cannot(DatabaseKind kind)
    {
        var (host, world, _) = await WithAnEmptyTankAsync(kind);
        await using var _1 = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        using var db = host.OpenDb();
        var signed = new Dictionary<string, string> { ["Input.SignedAs"] = "C. Ordinator", ["Input.Reason"] = "ice until Monday" };

        var nameless = await (await coordinator.PostFormAsync("/tanks/A950/ready", new Dictionary<string, string> { ["Input.SignedAs"] = "C. Ordinator" }, "sign")).Content.ReadAsStringAsync();
        Assert.Contains("Say why eggs may come all the same", nameless, StringComparison.Ordinal);
        await teacher.PostFormAsync("/tanks/A950/ready", signed, "sign");
        Assert.Empty(db.ReadyOverrides);

        await coordinator.PostFormAsync("/tanks/A950/ready", signed, "sign");
        Assert.Contains("C. Ordinator has signed that eggs may come", await teacher.ReadAsync("/tanks/A950/ready"), StringComparison.Ordinal);
        Assert.Contains("go, signed", await coordinator.ReadAsync("/lots/ready"), StringComparison.Ordinal);

        await coordinator.PostFormAsync("/tanks/A950/ready", new Dictionary<string, string>(), "withdraw");
        Assert.NotNull(db.ReadyOverrides.Single().WithdrawnAt);
        Assert.Contains("no-go", await coordinator.ReadAsync("/lots/ready"), StringComparison.Ordinal);
    }

    private static async Task<(PortalHost Host, TestWorld World, Tank Tank)> WithAnEmptyTankAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, ClassroomId = world.One.Rooms[0].Id, Code = "A950", Litres = 208, SetPointC = 10.5 };
        await host.SeedAsync(db =>
        {
            var lot = db.EggLots.Single(l => l.SeasonId == world.One.Season.Id && l.Code == "L1");
            db.AddRange(tank, new Allotment { Id = Guid.NewGuid(), SeasonId = world.One.Season.Id, TankId = tank.Id, LotId = lot.Id, Eggs = 100, DeliveryOn = new DateOnly(2027, 2, 4) });
        });
        return (host, world, tank);
    }
}
