using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Tests.Releases;

public class TemperingPlanTests
{
    private static readonly SchoolCalendar Calendar = new(ProgrammeClock.Of("America/Denver"), new TimeOnly(8, 0), new TimeOnly(15, 15), [(new DateOnly(2027, 4, 16), new DateOnly(2027, 4, 16))], []);

    /// <summary>A Monday.</summary>
    private static readonly DateOnly Monday = new(2027, 4, 12);

    private static double F(double fahrenheit) => (fahrenheit - 32) / 1.8;

    private static TemperingPlan Plan(double tankF, double streamF, DateOnly releaseOn) => TemperingPlan.Of(F(tankF), F(streamF), Monday, releaseOn, Calendar, F(40), F(56));

    [Fact]
    public void Three_degrees_are_three_school_days_as_late_as_can_be_and_the_last_is_before_the_release()
    {
        // Release on Tuesday the 20th; Friday the 16th is closed: Wednesday 14th, Thursday 15th and Monday 19th remain nearest.
        var plan = Plan(52, 55, new DateOnly(2027, 4, 20));

        Assert.Equal([(14, 53.0), (15, 54.0), (19, 55.0)], plan.Steps.Select(s => (s.On.Day, Math.Round((s.C * 1.8) + 32, 6))));
        Assert.Equal(0, plan.LeftC, 9);
        Assert.True(plan.IsNearEnough);
    }

    [Fact]
    public void What_the_days_do_not_reach_is_left_for_the_bucket_and_told_when_it_is_too_much()
    {
        var plan = Plan(50, 57, new DateOnly(2027, 4, 13));

        Assert.Equal((12, 51.0), plan.Steps.Select(s => (s.On.Day, Math.Round((s.C * 1.8) + 32, 6))).Single());
        Assert.Equal(6, plan.LeftC * 1.8, 6);
        Assert.False(plan.IsNearEnough);
        Assert.True(Plan(50, 56, new DateOnly(2027, 4, 13)).IsNearEnough);
    }

    [Fact]
    public void The_tank_is_never_taken_out_of_the_fishs_band()
    {
        var plan = Plan(54, 62, new DateOnly(2027, 5, 14));

        Assert.Equal(F(56), plan.Steps[^1].C, 9);
        Assert.Equal(6, plan.LeftC * 1.8, 6);
    }

    [Fact]
    public void Half_a_degree_is_one_turn_and_none_is_none()
    {
        Assert.Equal(F(52.5), Plan(52, 52.5, new DateOnly(2027, 4, 20)).Steps.Single().C, 9);
        Assert.Empty(Plan(52, 52, new DateOnly(2027, 4, 20)).Steps);
    }

    [Fact]
    public void Every_plan_keeps_to_school_days_a_degree_a_day_and_to_what_is_left()
    {
        var dice = new Random(4711);
        for (var i = 0; i < 2000; i++)
        {
            var (tank, stream, days) = (40 + (dice.NextDouble() * 16), 38 + (dice.NextDouble() * 25), dice.Next(0, 40));
            var plan = Plan(tank, stream, Monday.AddDays(days));
            var before = F(tank);
            foreach (var step in plan.Steps)
            {
                Assert.True(Calendar.IsSchoolDay(step.On) && step.On >= Monday && step.On < Monday.AddDays(days));
                Assert.True(Math.Abs(step.C - before) <= TemperingPlan.StepC + 1e-9);
                Assert.InRange(step.C, Math.Min(F(40), F(tank)) - 1e-9, Math.Max(F(56), F(tank)) + 1e-9);
                before = step.C;
            }

            Assert.Equal(F(stream) - before, plan.LeftC, 9);
        }
    }
}
