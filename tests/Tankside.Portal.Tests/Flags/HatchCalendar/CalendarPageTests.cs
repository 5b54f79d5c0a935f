using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.HatchCalendar;

/// <summary>Every tank against its school's days. The world's eggs are due to swim up in the middle of February.</summary>
public class CalendarPageTests
{
    [Theory, BothDatabases]
    public async Task A_break_round_the_swim_up_is_the_first_thing_said_and_each_sees_their_own_tanks(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        Assert.Contains("All 2 tanks keep clear of every break.", await coordinator.ReadAsync("/calendar"), StringComparison.Ordinal);

        Assert.Contains("Crisp 1988", await coordinator.ReadAsync("/calendar"), StringComparison.Ordinal);

        await host.SeedAsync(db => db.Add(new Closure
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            SchoolId = world.One.Schools[0].Id,
            FirstDay = new DateOnly(2027, 2, 15),
            LastDay = new DateOnly(2027, 2, 19),
            Reason = "Winter break",
        }));

        var all = await coordinator.ReadAsync("/calendar");
        Assert.Contains("1 tank may swim up in a break, or too near one.", all, StringComparison.Ordinal);
        Assert.Contains("chance in or just before the break Sat 13 to Sun 21 February", all, StringComparison.Ordinal);
        Assert.Contains("A002", all, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School Closed: Winter break, Mon 15 to Fri 19 February.", await coordinator.ReadAsync("/calendar?by=school"), StringComparison.Ordinal);
        Assert.DoesNotContain("A001", await coordinator.ReadAsync("/calendar?school=Mill+Pond+School"), StringComparison.Ordinal);
        Assert.Contains("No tank fits.", await coordinator.ReadAsync("/calendar?lot=nothing"), StringComparison.Ordinal);

        var own = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/calendar");
        Assert.Contains("A001", own, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", own, StringComparison.Ordinal);
        Assert.Contains("keep clear of every break", await (await host.ClientAs(Role.Coordinator, world.Two)).ReadAsync("/calendar"), StringComparison.Ordinal);
        await (await host.ClientAs(Role.AgencyContact, world.One)).AssertNotTheirsAsync("/calendar");
    }

    [Theory, BothDatabases]
    public async Task What_was_seen_stands_as_seen_and_what_should_have_been_seen_is_said(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddDays(-8), new Observation { Hatched = Share.Most }));
        await host.JudgeAsync();

        var page = await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/calendar");

        Assert.Contains("A001 Birch Lane School, Room 1 seen Tue 26 Jan", page, StringComparison.Ordinal);
        Assert.Matches("A002 Mill Pond School, Room 2 due by [A-Z][a-z]{2} \\d+ Jan, not reported", page);
    }

    [Theory, BothDatabases]
    public async Task Without_fish_it_says_what_it_waits_for(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            foreach (var tank in db.Tanks)
            {
                tank.ClosedAt = host.Now;
            }
        });
        await host.SeedAsync(db => db.Add(new Tank { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, ClassroomId = world.One.Rooms[0].Id, Code = "A777", Litres = 200, SetPointC = 10 }));

        Assert.Contains(
            "No tank has fish to date. 1 tank waits for eggs;", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/calendar"), StringComparison.Ordinal);
    }
}
