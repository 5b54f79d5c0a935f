using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Tests.Readings;
using Tankside.Science.Units;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Flags.Sweeps.SweepSteps;

namespace Tankside.Portal.Tests.Flags.Sweeps;

/// <summary>One act over a whole area: what it does to flags, to silence, and how it ends.</summary>
public class MarkedAreaTests
{
    [Theory, BothDatabases]
    public async Task One_act_marks_forty_tanks_and_each_that_nobody_has_seen_since_is_asked_for_at_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        Tank[] north = [one.Tanks[0], .. await host.AddTanksAsync(one, 39)];
        await host.AcceptAsync([.. north.Append(one.Tanks[1]).Select(t => Sent.Seen(t, host.Now.AddMinutes(-30), new Observation { Moving = true }))]);
        await host.SweepAsync();
        Assert.Empty(await SilentAsync(host, one));
        var coordinator = await host.ClientAs(Role.Coordinator, one);
        Assert.Contains("North 40 schools, 40 tanks, 1 teacher", await coordinator.ReadAsync("/sweeps"), StringComparison.Ordinal);

        var board = await coordinator.MarkAsync("north", PowerCut);
        await host.JudgeAsync();

        var flags = await SilentAsync(host, one);
        Assert.Equal(north.Select(t => t.Id).Order(), flags.Select(f => f.TankId!.Value).Order());
        Assert.All(flags, f => Assert.Equal(host.Now, Assert.IsType<PowerCutEvidence>(f.Evidence).Since));
        Assert.Contains("40 schools marked, 0 answered, 40 silent.", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Contains("Power cut in north since 08:15 : 0 of 40 schools answered.", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);
        Assert.Contains("No power since 08:15, not seen since", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Water_seen_to_move_after_the_cut_takes_its_tank_out(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await (await host.ClientAs(Role.Coordinator, world.One)).MarkAsync("*", PowerCut);
        await host.JudgeAsync();
        Assert.Equal(2, (await host.FlagsAsync(FlagKind.Silent)).Count(f => f.State == FlagState.Open));

        host.Time.Advance(TimeSpan.FromMinutes(20));
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now, new Observation { Moving = true }));
        await host.JudgeAsync();

        Assert.Equal(world.One.Tanks[1].Id, Assert.Single(await host.FlagsAsync(FlagKind.Silent), f => f.State == FlagState.Open).TankId);
    }

    [Theory, BothDatabases]
    public async Task Snow_makes_nobody_late(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. world.One.Tanks.Select(t => Sent.Seen(t, host.Now.AddMinutes(-30), new Observation { WaterC = null, Moving = true }))]);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        host.Time.Advance(TimeSpan.FromHours(22)); // Thursday, a little after six.
        await coordinator.MarkAsync("north", Snow, ("Input.Until", "2027-02-04T16:00"));

        host.Time.Advance(TimeSpan.FromHours(34)); // Friday after the bell: two school days in the south, one in the north.
        await host.SweepAsync();

        Assert.Equal(world.One.Tanks[1].Id, Assert.Single(await SilentAsync(host, world.One)).TankId);
    }

    [Theory, BothDatabases]
    public async Task The_end_keeps_asking_for_the_unseen_and_both_end_and_mark_can_be_taken_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddMinutes(-30), new Observation { Moving = true }));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var board = await coordinator.MarkAsync("north", PowerCut);
        host.Time.Advance(TimeSpan.FromHours(1));

        await coordinator.PressAsync(board, "end");
        await host.JudgeAsync();
        Assert.Equal(host.Now, Assert.IsType<PowerCutEvidence>(Assert.Single(await host.FlagsAsync(FlagKind.Silent)).Evidence).BackAt);
        Assert.DoesNotContain("Power cut in north", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);
        Assert.Contains("is the pump primed", await coordinator.ReadAsync("/round"), StringComparison.Ordinal);

        await coordinator.PressAsync(board, "reopen");
        await host.JudgeAsync();
        Assert.Null(Assert.IsType<PowerCutEvidence>(Assert.Single(await host.FlagsAsync(FlagKind.Silent)).Evidence).BackAt);

        await coordinator.PressAsync(board, "take-back");
        await host.JudgeAsync();
        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Silent)).State);
        Assert.Contains("Taken back by Coordinator A", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Contains("taken back", await coordinator.ReadAsync("/sweeps"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_mark_taken_back_leaves_nothing_to_act_on_though_a_class_read_before_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddMinutes(-30), new Observation { Moving = true }, ReadingSource.Class));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var board = await coordinator.MarkAsync("north", PowerCut);
        await coordinator.PressAsync(board, "told", ("Input.School", $"{world.One.Schools[0].Id}"), ("Input.Answer", nameof(SweepAnswer.PowerOff)));
        await coordinator.PressAsync(board, "told", ("Input.School", $"{world.One.Schools[0].Id}"), ("Input.Answer", nameof(SweepAnswer.Trouble)));
        await host.JudgeAsync();
        Assert.Equal(Urgency.ActNow, Assert.Single(await SilentAsync(host, world.One)).Urgency);

        host.Time.Advance(TimeSpan.FromMinutes(10));
        await coordinator.PressAsync(board, "take-back");
        await host.JudgeAsync();

        var flag = Assert.Single(await SilentAsync(host, world.One));
        Assert.Equal((FlagState.Settled, Settlement.Cleared, null), (flag.State, flag.Settlement!.Value, flag.SaidOverAt));
    }

    [Theory, BothDatabases]
    public async Task What_a_school_tells_the_coordinator_fills_the_board_and_overrides(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.ProgrammeLead, world.One);
        var board = await coordinator.MarkAsync("*", PowerCut);
        (string, string) school = ("Input.School", $"{world.One.Schools[0].Id}");

        await coordinator.PressAsync(board, "told", school, ("Input.Answer", nameof(SweepAnswer.Trouble)), ("Input.Note", "fish at the surface"));
        await host.JudgeAsync();
        Assert.Contains("2 schools marked, 1 answered, 1 has trouble, 1 silent.", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Contains("“fish at the surface”", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Equal(Urgency.ActNow, Assert.Single(await host.FlagsAsync(FlagKind.Silent), f => f.TankId == world.One.Tanks[0].Id).Urgency);

        host.Time.Advance(TimeSpan.FromMinutes(10));
        await coordinator.PressAsync(board, "told", school, ("Input.Answer", nameof(SweepAnswer.AllWell)));
        await host.JudgeAsync();
        Assert.Contains("2 schools marked, 1 answered, 1 silent.", await coordinator.ReadAsync(board), StringComparison.Ordinal);
        Assert.Equal(FlagState.Settled, Assert.Single(await host.FlagsAsync(FlagKind.Silent), f => f.TankId == world.One.Tanks[0].Id).State);
    }

    [Fact]
    public async Task The_board_goes_by_the_moment_to_act_by_not_by_the_middle_of_the_hours()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var one = world.One;
        var board = await (await host.ClientAs(Role.Coordinator, one)).MarkAsync("*", PowerCut);
        await host.JudgeAsync();
        await host.SeedAsync(db =>
        {
            foreach (var flag in db.Flags.Where(f => f.Kind == FlagKind.Silent && f.ProgrammeId == one.Programme.Id))
            {
                flag.Hazard = Hazard.AfterLimit(host.Now, flag.TankId == one.Tanks[0].Id ? new Band(3, 5, 8) : new Band(1, 6, 20), 2, 0.5);
            }
        });

        var now = await host.CallAsync<SweepBoard, SweepNow?>(b => b.LoadAsync(one.Programme.Id, Guid.Parse(board.Split('/')[^1]), default));

        Assert.Equal([one.Schools[1].Id, one.Schools[0].Id], now!.Schools.Select(s => s.School.Id));
    }

    public static TheoryData<string, string, string, string, string> Refusals => new()
    {
        { "", PowerCut, "", "", "Choose an area, or the whole programme." },
        { "moon", PowerCut, "", "", "Choose an area, or the whole programme." },
        { "north", "", "", "", "Choose what happened." },
        { "north", PowerCut, "2027-02-04T08:00", "", "This time is still to come." },
        { "north", PowerCut, "2026-02-03T08:00", "", "more than 14 days ago" },
        { "north", PowerCut, "yesterday", "", "Give day and time" },
        { "north", PowerCut, "2027-02-03T08:00", "2027-02-03T07:00", "The end is not after the beginning." },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task A_mark_that_cannot_be_read_is_refused_and_nothing_is_stored(string area, string reason, string since, string until, string said)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        using var answer = await coordinator.PostFormAsync("/sweeps", Fields(area, reason, ("Input.Since", since), ("Input.Until", until)), "mark");

        Assert.Contains(said, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.AreaSweeps.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task The_same_form_sent_twice_is_one_mark_and_a_second_mark_of_the_same_is_refused(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        (string, string) id = ("Input.Id", $"{Guid.NewGuid()}");

        Assert.Equal(await coordinator.MarkAsync("north", PowerCut, id), await coordinator.MarkAsync("north", PowerCut, id));
        using var again = await coordinator.PostFormAsync("/sweeps", Fields("north", PowerCut), "mark");

        Assert.Contains("This is marked already: power cut since Wed 3 Feb 08:15.", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(world.One.Programme.Id, (await db.AreaSweeps.SingleAsync()).ProgrammeId);
    }

    /// <summary>The clock makes the other programme's tanks silent too.</summary>
    private static async Task<List<Flag>> SilentAsync(PortalHost host, TestProgramme programme) =>
        [.. (await host.FlagsAsync(FlagKind.Silent)).Where(f => f.ProgrammeId == programme.Programme.Id)];
}
