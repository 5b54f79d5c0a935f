using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A plan is asked for, kept, told on the tank's pages, replaced and ended.</summary>
public class SetPointPlanTests
{
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

    private static Task<List<SetPointPlan>> PlansAsync(PortalHost host)
    {
        using var db = host.OpenDb();
        return Task.FromResult<List<SetPointPlan>>([.. db.SetPointPlans.OrderBy(p => p.MadeAt)]);
    }
}
