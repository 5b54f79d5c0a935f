using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The first page says to each what they came for, and to nobody more than is theirs.</summary>
public class HomeTests
{
    [Theory, BothDatabases]
    public async Task Nobody_learns_what_Tankside_is_for_and_nothing_else(DatabaseKind kind)
    {
        var (host, _) = await WithTroublesAsync(kind);
        await using var __ = host;

        var page = await host.Anonymous().ReadAsync("/");

        Assert.Contains("Scan the label on your tank", page, StringComparison.Ordinal);
        Assert.Contains("Sign in", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Birch Lane", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_coordinator_reads_how_many_calls_there_are_and_the_first(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;

        foreach (var role in new[] { Role.Coordinator, Role.ProgrammeLead })
        {
            var page = await (await host.ClientAs(role, world.One)).ReadAsync("/");

            Assert.Contains("2 tanks need you this morning.", page, StringComparison.Ordinal);
            Assert.Contains("The chiller is said to be off", page, StringComparison.Ordinal);
            Assert.Contains("Mill Pond School, Room 2 · A002", page, StringComparison.Ordinal);
        }

        Assert.Contains("No tank needs a call.", await (await host.ClientAs(Role.Coordinator, world.Two)).ReadAsync("/"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_teacher_reads_of_the_schools_own_tanks_and_of_what_is_due(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;
        host.Time.Advance(TimeSpan.FromDays(7));
        await host.SeedAsync(db => db.AddRange(
            NewClosure(world, world.One.Schools[0].Id, 10, "Snow days"), NewClosure(world, world.One.Schools[1].Id, 10, "Boiler repair"),
            NewClosure(world, null, 15, "Spring break")));

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/");

        Assert.Contains("Your tank needs you.", page, StringComparison.Ordinal);
        Assert.Contains("Room 1, tank A001", page, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", page, StringComparison.Ordinal);
        Assert.Contains("School closed (Snow days): Sat 20 to Sun 21 February", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Boiler repair", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Spring break", page, StringComparison.Ordinal);
        Assert.Contains("Tank A001: swim-up between ", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_kit_hand_reads_of_chiller_pump_and_ice_alone(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;

        var page = await (await host.ClientAs(Role.KitHand, world.One)).ReadAsync("/");

        Assert.Equal(FlagState.Open, Assert.Single(await host.FlagsAsync(FlagKind.Warm)).State);
        Assert.Contains("1 tank has trouble with chiller, pump or ice.", page, StringComparison.Ordinal);
        Assert.Contains("The chiller is said to be off", page, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_agency_reads_sums_and_no_school(DatabaseKind kind)
    {
        var (host, world) = await WithTroublesAsync(kind);
        await using var _ = host;
        var agency = await host.ClientAs(Role.AgencyContact, world.One);

        var page = await agency.ReadAsync("/");

        Assert.Contains("Of 300 eggs received, 0 fish were released, 296 are in tanks, 4 were lost and 0 are unaccounted.", page, StringComparison.Ordinal);
        Assert.All(["Birch Lane", "Mill Pond", "A001", "A002", "chiller"], word => Assert.DoesNotContain(word, page, StringComparison.Ordinal));
        await agency.AssertNotTheirsAsync("/tanks");
    }

    /// <summary>Tank 0: the chiller is off. Tank 1: warm, and nothing else.</summary>
    private static async Task<(PortalHost Host, TestWorld World)> WithTroublesAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-30), 10.5) with { Seen = new Observation { ChillerRunning = false, Moving = true, Bubbles = true } },
            Sent.Water(world.One.Tanks[1], host.Now.AddMinutes(-20), 12.6));
        await host.JudgeAsync();
        return (host, world);
    }

    private static Closure NewClosure(TestWorld world, Guid? school, int inDays, string reason)
    {
        var first = DateOnly.FromDateTime(TestWorld.Now).AddDays(7 + inDays);
        return new() { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, SchoolId = school, FirstDay = first, LastDay = first.AddDays(1), Reason = reason };
    }
}
