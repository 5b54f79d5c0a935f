using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A plan is asked for, kept, told on the tank's pages, replaced and ended.</summary>
public class SetPointPlanTests
{
    [Theory, BothDatabases]
    public async Task The_hold_limit_of_a_permit_is_weighed_where_it_comes_before_its_end(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10.5))]);
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        const string Asked = "/tanks/A001/plan?goal=swim-up-by&day=2027-02-25";

        var free = await teacher.ReadAsync(Asked);
        await using var db = host.OpenDb();
        await db.Permits.Where(p => p.Id == world.One.Permit.Id).ExecuteUpdateAsync(set => set.SetProperty(p => p.HoldDays, 20));
        var held = await teacher.ReadAsync(Asked);

        Assert.Contains("The permit ends on Wed 30 June", free, StringComparison.Ordinal);
        Assert.Contains("The permit lets these fish be held until Thu 4 February, before the late end of swim-up on", held, StringComparison.Ordinal);
        Assert.DoesNotContain("The permit ends on", held, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_kept_plan_says_each_day_where_the_dial_stands_until_another_is_kept_or_it_is_ended(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10.5))]);
        await host.JudgeAsync();
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var before = await teacher.ReadAsync("/tanks/A001/plan?goal=swim-up-by&day=2027-03-20");
        Assert.Contains("The dial stands at 50.9 °F (10.5 °C)", before, StringComparison.Ordinal);

        await teacher.PostFormAsync("/tanks/A001/plan?goal=swim-up-by&day=2027-02-25", new Dictionary<string, string>(), "keep");
        var plan = Assert.Single(await PlansAsync(host));
        Assert.Equal((SetPointGoal.SwimUpBy, new DateOnly(2027, 2, 25), world.One.Tanks[0].Id, null), (plan.Goal, plan.GoalDay, plan.TankId, plan.EndedAt));
        var steps = StoredSteps.Read(plan.Steps);
        var dial = new Portal.Flags.ScaleWords(TemperatureUnit.F).Both(SetPointCourse.On(steps, new DateOnly(2027, 2, 3))).Replace('\u00A0', ' ');
        foreach (var address in new[] { "/tanks/A001", "/", "/tanks/A001/plan" })
        {
            Assert.Contains($"Today: set the dial to {dial}.", await teacher.ReadAsync(address), StringComparison.Ordinal);
        }

        host.Time.Advance(TimeSpan.FromMinutes(1));
        await teacher.PostFormAsync("/tanks/A001/plan?goal=swim-up-by&day=2027-02-24", new Dictionary<string, string>(), "keep");
        Assert.Equal([false, true], (await PlansAsync(host)).Select(p => p.EndedAt is null));

        await teacher.PostFormAsync("/tanks/A001/plan", new Dictionary<string, string>(), "end");
        Assert.All(await PlansAsync(host), p => Assert.NotNull(p.EndedAt));
        Assert.DoesNotContain("set the dial", await teacher.ReadAsync("/tanks/A001"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_day_that_no_set_point_gives_is_told_with_the_least_bad_course(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var page = await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/tanks/A001/plan?goal=swim-up-by&day=2027-02-04");

        Assert.Contains("No set-point in the safe band gives it", page, StringComparison.Ordinal);
        Assert.Contains("The least bad course", page, StringComparison.Ordinal);
        Assert.Contains("can be brought to any time from", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_question_that_cannot_be_read_plans_nothing_and_says_what_is_expected(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        Assert.Contains("year-month-day", await client.ReadAsync("/tanks/A001/plan?goal=hatch-on&day=soon"), StringComparison.Ordinal);
        Assert.Contains("Say which day", await client.ReadAsync("/tanks/A001/plan?goal=hatch-on"), StringComparison.Ordinal);
        Assert.Contains("lies in the past", await client.ReadAsync("/tanks/A001/plan?goal=hatch-on&day=2026-01-01"), StringComparison.Ordinal);
        Assert.Contains("one of the three goals", await client.ReadAsync("/tanks/A001/plan?goal=fly"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_lots_tanks_are_planned_together_each_with_its_own_page(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var page = await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/calendar/plan?lot=L1");

        Assert.Contains("for lot L1", page, StringComparison.Ordinal);
        Assert.Contains("A001", page, StringComparison.Ordinal);
        Assert.Contains("No tank with fish in lot L9", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/calendar/plan?lot=L9"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_kept_plan_is_the_set_point_of_each_day_and_the_dates_go_by_its_steps_to_come(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10.5))]);
        await host.JudgeAsync();
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var before = await SwimUpAsync(host, world.One.Tanks[0].Id);
        var asked = before.AddDays(-1);

        await teacher.PostFormAsync($"/tanks/A001/plan?goal=swim-up-by&day={asked:yyyy-MM-dd}", new Dictionary<string, string>(), "keep");
        var steps = Assert.Single(await PlansAsync(host)).Course();
        Assert.True(steps.Count > 2, "The plan turns the dial on several days.");
        Assert.InRange(await SwimUpAsync(host, world.One.Tanks[0].Id), asked.AddDays(-1), asked);
        foreach (var step in steps)
        {
            var noon = step.On.ToDateTime(new TimeOnly(19, 0), DateTimeKind.Utc);
            if (noon > host.Now)
            {
                host.Time.Advance(noon - host.Now);
            }

            await host.SweepAsync();
            Assert.Equal(step.C, SetPointOf(host, world.One.Tanks[0].Id), 4);
        }
    }

    [Theory, BothDatabases]
    public async Task Whoever_finds_the_dial_elsewhere_says_so_and_the_plan_ends(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        await teacher.PostFormAsync("/tanks/A001/plan?goal=swim-up-by&day=2027-02-25", new Dictionary<string, string>(), "keep");

        var refused = await SentAsync(teacher, new Dictionary<string, string> { ["Input.Dial"] = "5.2 m" });
        Assert.Contains("as a number, for example 52", refused, StringComparison.Ordinal);
        Assert.Contains("5.2 m", refused, StringComparison.Ordinal);
        Assert.Null(Assert.Single(await PlansAsync(host)).EndedAt);
        Assert.Contains("is outside", await SentAsync(teacher, new Dictionary<string, string> { ["Input.Dial"] = "90" }), StringComparison.Ordinal);

        await teacher.PostFormAsync("/tanks/A001/plan", new Dictionary<string, string> { ["Input.Dial"] = "48,2" }, "dial");
        Assert.Equal(9, SetPointOf(host, world.One.Tanks[0].Id), 4);
        Assert.NotNull(Assert.Single(await PlansAsync(host)).EndedAt);
        Assert.Contains("The dial stands at 48.2 °F (9 °C)", await teacher.ReadAsync("/tanks/A001/plan"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_lots_plans_are_kept_together_as_they_were_shown_and_not_once_they_have_changed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        DateOnly swimUp;
        using (var db = host.OpenDb())
        {
            // A week off from just where the tanks would hatch and swim up by themselves.
            swimUp = await SwimUpAsync(host, world.One.Tanks[0].Id);
            db.Closures.Add(new Closure { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, FirstDay = swimUp.AddDays(-1), LastDay = swimUp.AddDays(2), Reason = "Recess" });
            db.SaveChanges();
        }

        var client = await host.ClientAs(Role.Coordinator, world.One);
        Assert.Contains("Keep all 2 plans", await client.ReadAsync("/calendar/plan?lot=L1"), StringComparison.Ordinal);
        await client.PostFormAsync("/calendar/plan/keep?lot=L1", new Dictionary<string, string> { ["Input.Seen"] = "of yesterday" }, "keep");
        Assert.Empty(await PlansAsync(host));
        Assert.Contains("Nothing was kept", await client.ReadAsync("/calendar/plan/keep?lot=L1"), StringComparison.Ordinal);

        await client.PostFormAsync("/calendar/plan/keep?lot=L1", new Dictionary<string, string>(), "keep");
        var kept = await PlansAsync(host);
        Assert.NotEmpty(kept);
        Assert.All(kept, p => Assert.Equal(SetPointGoal.ClearOfClosedDays, p.Goal));
        Assert.Contains("No plan is left to keep", await client.ReadAsync("/calendar/plan/keep?lot=L1"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_Spanish_teacher_plans_keeps_and_is_refused_in_Spanish(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Users.Single(p => p.Email == world.One.EmailOf(Role.Teacher)).Language = "es");
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10.5))]);
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        const string Asked = "/tanks/A001/plan?goal=swim-up-by&day=2027-02-25";

        var plan = await teacher.ReadAsync(Asked);
        Assert.Contains("del termostato, hasta llegar a", plan, StringComparison.Ordinal);
        Assert.Contains("El permiso termina el mié 30 de junio", plan, StringComparison.Ordinal);
        Assert.Contains("queda fuera. La temperatura fijada no se cambió.", WebUtility.HtmlDecode(await SentAsync(teacher, new() { ["Input.Dial"] = "90" })), StringComparison.Ordinal);

        await teacher.PostFormAsync(Asked, new Dictionary<string, string>(), "keep");
        Assert.Contains("Planeado para nadar hasta el jue 25 de febrero", await teacher.ReadAsync("/tanks/A001/plan"), StringComparison.Ordinal);
    }

    private static async Task<string> SentAsync(HttpClient client, Dictionary<string, string> fields) =>
        (await (await client.PostFormAsync("/tanks/A001/plan", fields, "dial")).Content.ReadAsStringAsync()).Replace('\u00A0', ' ');

    private static async Task<DateOnly> SwimUpAsync(PortalHost host, Guid tank)
    {
        using var db = host.OpenDb();
        return (await Portal.Flags.TankGlances.LoadAsync(db, [tank], host.Now, CancellationToken.None))[0].Development!.SwimUp!.Mid;
    }

    private static double SetPointOf(PortalHost host, Guid tank)
    {
        using var db = host.OpenDb();
        return db.Tanks.Single(t => t.Id == tank).SetPointC;
    }

    private static Task<List<SetPointPlan>> PlansAsync(PortalHost host)
    {
        using var db = host.OpenDb();
        return Task.FromResult<List<SetPointPlan>>([.. db.SetPointPlans.OrderBy(p => p.MadeAt)]);
    }
}
