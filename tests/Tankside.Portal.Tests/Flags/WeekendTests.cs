using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Safe to leave? Two days after the world's Wednesday it is Friday; the bell rings at 15:15.</summary>
public class WeekendTests
{
    private static readonly Observation AllWell = new() { Moving = true, Bubbles = true, LevelOk = true, Clear = true };

    [Theory, BothDatabases]
    public async Task On_friday_afternoon_the_coordinator_reads_who_needs_something_before_the_bell(DatabaseKind kind)
    {
        var (host, world) = await OnFridayAsync(kind);
        await using var _ = host;

        foreach (var role in new[] { Role.Coordinator, Role.ProgrammeLead })
        {
            var client = await host.ClientAs(role, world.One);
            var page = await client.ReadAsync("/weekend");

            Assert.Contains("Safe to leave till Monday? 1 of 2 tanks needs something before the bell at 15:15.", page, StringComparison.Ordinal);
            Assert.Contains("Closed from Fri 15:15 to Mon 08:00, 65 hours.", page, StringComparison.Ordinal);
            Assert.Contains("Mill Pond School, Room 2 · A002 not known", page, StringComparison.Ordinal);
            Assert.Contains("Read the tank now: thermometer, water moving, bubbles. Last looked at on Wed 08:15.", page, StringComparison.Ordinal);
            Assert.Contains("1 tank is safe, with its worst hours Birch Lane School, Room 1 · A001 safe", page, StringComparison.Ordinal);
            Assert.Contains("at 15:15 on Friday, ", page, StringComparison.Ordinal);
            Assert.Contains("nobody looks before Mon 08:30.", page, StringComparison.Ordinal);
            Assert.Contains("Safe to leave till Monday? 1 of 2 tanks needs something before the bell at 15:15.", await client.ReadAsync("/"), StringComparison.Ordinal);
            Assert.Contains("Safe to leave till Monday? 1 of 2 tanks needs something before the bell at 15:15.", await client.ReadAsync("/round"), StringComparison.Ordinal);
        }

        Assert.DoesNotContain("A001", await (await host.ClientAs(Role.Coordinator, world.Two)).ReadAsync("/weekend"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_teacher_sees_the_schools_own_tank_there_and_on_its_page_and_the_agency_nothing(DatabaseKind kind)
    {
        var (host, world) = await OnFridayAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var page = await teacher.ReadAsync("/weekend");
        Assert.Contains("The tank is safe to leave till Mon 08:30.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", page, StringComparison.Ordinal);
        var tank = await teacher.ReadAsync("/tanks/A001");
        Assert.Contains("Safe to leave till Monday? Safe till Mon 08:30. ", tank, StringComparison.Ordinal);
        Assert.Contains("An adult does everything at plugs, cords and lids", tank, StringComparison.Ordinal);
        Assert.Contains("The last look was 0.6 hours ago.", tank, StringComparison.Ordinal);
        Assert.Contains("The tank is safe to leave till Mon 08:30.", await teacher.ReadAsync("/"), StringComparison.Ordinal);

        await (await host.ClientAs(Role.AgencyContact, world.One)).AssertNotTheirsAsync("/weekend");
        await (await host.ClientAs(Role.KitHand, world.One)).AssertNotTheirsAsync("/weekend");
    }

    [Theory, BothDatabases]
    public async Task The_page_of_the_tank_and_the_sheet_say_the_same_thing_to_do(DatabaseKind kind)
    {
        var (host, world) = await OnFridayAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        Assert.Contains("Not known till Mon 08:30. The one thing before the bell: Read the tank now: thermometer, water moving, bubbles.", await coordinator.ReadAsync("/tanks/A002"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Early_in_the_week_it_answers_for_friday_and_the_round_does_not_ask(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Well(world.One.Tanks[0], host.Now), Well(world.One.Tanks[1], host.Now.AddDays(-6)));
        await host.JudgeAsync();
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        Assert.Contains("1 of 2 tanks needs something before Friday's bell, as it stands today.", await coordinator.ReadAsync("/weekend"), StringComparison.Ordinal);
        Assert.DoesNotContain("Safe to leave till", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);
        Assert.DoesNotContain("Safe to leave till", await coordinator.ReadAsync("/"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_hours_nobody_knew_are_the_same_on_the_sheet_the_list_and_the_tanks_page(DatabaseKind kind)
    {
        var (host, world) = await OnFridayAsync(kind);
        await using var _ = host;
        await using var db = host.OpenDb();
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var hours = await NotKnownHours.LoadAsync(db, [world.One.Tanks[0].Id], host.Now, CancellationToken.None);
        var average = hours.Of(world.One.Tanks[0].Id)!.Average;

        // 15 January 9:00 to 3 February 8:15, to 4 February 8:15, to 5 February 14:10, to 14:45: squared gaps over twice their sum.
        double[] gaps = [455.25, 24, 29 + (55 / 60.0), 35 / 60.0];
        Assert.Equal(gaps.Sum(g => g * g) / (2 * gaps.Sum()), average, 6);
        var said = WeekendWords.Hours(average);
        Assert.Contains($"nobody knew for {said} on average", await coordinator.ReadAsync("/weekend"), StringComparison.Ordinal);
        Assert.Contains($"nobody knew for {said} on average", await coordinator.ReadAsync("/tanks/A001"), StringComparison.Ordinal);
        Assert.Contains(said, await coordinator.ReadAsync("/tanks"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_late_old_reading_that_fills_a_gap_lowers_the_hours(DatabaseKind kind)
    {
        var (host, world) = await OnFridayAsync(kind);
        await using var _ = host;
        var before = await AverageAsync(host, world);

        await host.AcceptAsync(Well(world.One.Tanks[0], host.Now.AddDays(-12)));
        await host.JudgeAsync();

        Assert.True(await AverageAsync(host, world) < 0.7 * before);
    }

    [Theory, BothDatabases]
    public async Task With_no_fish_there_is_nothing_to_leave(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using (var db = host.OpenDb())
        {
            foreach (var tank in db.Tanks.Where(t => t.ProgrammeId == world.One.Programme.Id))
            {
                tank.ClosedAt = host.Now.AddDays(-1);
            }

            await db.SaveChangesAsync();
        }

        Assert.Contains("No tank has fish to leave.", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/weekend"), StringComparison.Ordinal);
    }

    private static async Task<double> AverageAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        return (await NotKnownHours.LoadAsync(db, [world.One.Tanks[0].Id], host.Now, CancellationToken.None)).Of(world.One.Tanks[0].Id)!.Average;
    }

    /// <summary>Friday 14:45. Tank 0 was read on Wednesday, Thursday and today at 14:10; tank 1 on Wednesday alone.</summary>
    private static async Task<(PortalHost Host, TestWorld World)> OnFridayAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var wednesday = host.Now;
        host.Time.Advance(new TimeSpan(2, 6, 30, 0));
        await host.AcceptAsync(
            Well(world.One.Tanks[0], wednesday), Well(world.One.Tanks[0], wednesday.AddDays(1)), Well(world.One.Tanks[0], host.Now.AddMinutes(-35)), Well(world.One.Tanks[1], wednesday));
        await host.JudgeAsync();
        return (host, world);
    }

    private static Portal.Readings.IncomingReading Well(Tank tank, DateTime at) => Sent.Water(tank, at, 10.5) with { Seen = AllWell };
}
