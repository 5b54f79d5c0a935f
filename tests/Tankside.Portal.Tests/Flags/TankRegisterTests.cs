using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The register: one's own tanks, searched, filtered, fifty to a page.</summary>
public class TankRegisterTests
{
    [Theory, BothDatabases]
    public async Task The_first_line_counts_every_tank_once(DatabaseKind kind)
    {
        var (host, world) = await WithManyAsync(kind);
        await using var _ = host;

        Assert.Contains(
            "64 tanks: 1 well, 1 flagged, 61 waiting for eggs, 1 closed.", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/tanks"), StringComparison.Ordinal);
        Assert.Contains("1 tank: 1 flagged.", await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks"), StringComparison.Ordinal);
        Assert.Contains("2 tanks: 2 well.", await (await host.ClientAs(Role.KitHand, world.Two)).ReadAsync("/tanks"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Fifty_stand_on_a_page_and_the_rest_on_the_next(DatabaseKind kind)
    {
        var (host, world) = await WithManyAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var first = await coordinator.ReadAsync("/tanks");
        var second = await coordinator.ReadAsync("/tanks?page=2");

        Assert.Contains("A001", first, StringComparison.Ordinal);
        Assert.Contains("M048", first, StringComparison.Ordinal);
        Assert.DoesNotContain("M049", first, StringComparison.Ordinal);
        Assert.Contains("M049", second, StringComparison.Ordinal);
        Assert.Contains("Page 2 of 2", await coordinator.ReadAsync("/tanks?page=99"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Search_and_filter_narrow_it(DatabaseKind kind)
    {
        var (host, world) = await WithManyAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var birch = await coordinator.ReadAsync("/tanks?search=BIRCH");
        var flagged = await coordinator.ReadAsync("/tanks?show=flagged");

        Assert.Contains("1 tank that fit", birch, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School, Room 1", birch, StringComparison.Ordinal);
        Assert.Contains("1 flagged tank,", flagged, StringComparison.Ordinal);
        Assert.Contains("54.7 °F (12.6 °C)", flagged, StringComparison.Ordinal);
        Assert.Contains("today : warm water", flagged, StringComparison.Ordinal);
        Assert.Contains("No tank fits.", await coordinator.ReadAsync("/tanks?show=silent"), StringComparison.Ordinal);
    }

    /// <summary>Beside the world's two tanks with eggs, of which the first is warm, sixty-two empty ones at the second school, one of them closed.</summary>
    private static async Task<(PortalHost Host, TestWorld World)> WithManyAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.SeedAsync(db => db.AddRange(Enumerable.Range(1, 62).Select(n => new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            ClassroomId = world.One.Rooms[1].Id,
            Code = $"M{n:000}",
            Litres = 208,
            SetPointC = 10.5,
            ClosedAt = n == 62 ? host.Now : null,
        })));
        var hatched = new Observation { Hatched = Share.Half };
        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-20), 12.6) with { Seen = hatched },
            Sent.Water(world.One.Tanks[1], host.Now.AddMinutes(-20), 10.6) with { Seen = hatched });
        await host.JudgeAsync();
        return (host, world);
    }
}
