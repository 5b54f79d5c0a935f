using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Readings.SetPoints;

public class SetPointPlannerTests
{
    private static readonly DateOnly Monday = new(2027, 1, 18);

    private static SetPointCourse BestOf(SetPointAnswer answer) => answer switch
    {
        SetPointsFound found => found.Best,
        NoSetPoints none => none.LeastBad,
        _ => throw new InvalidOperationException($"No course: {answer}"),
    };

    private static Reach ReachOf(SetPointAnswer answer) => answer switch
    {
        SetPointsFound found => found.Reach,
        NoSetPoints none => none.Reach,
        _ => throw new InvalidOperationException($"No course: {answer}"),
    };

    /// <summary>The stage's day when the steps are walked one day after the other, with nothing of the planner's own.</summary>
    private static DateOnly? RunForward(StageOutlook outlook, SetPointCourse course, DateOnly today)
    {
        var (fraction, day) = (outlook.SoFar.FractionSoFar, today);
        for (var dial = 0; day < today.AddDays(500); day = day.AddDays(1))
        {
            while (dial + 1 < course.Steps.Count && course.Steps[dial + 1].On <= day)
            {
                dial++;
            }

            fraction = Development.Fraction(outlook.Model, [new Celsius(course.Steps[dial].C)]) + fraction;
            if (fraction >= 1)
            {
                return day;
            }
        }

        return null;
    }

    private static void AssertMayBeTurned(SetPointQuestion q, SetPointCourse course)
    {
        var before = q.SetPointC;
        foreach (var step in course.Steps)
        {
            if (Math.Abs(step.C - before) > 0.006)
            {
                Assert.True(Math.Abs(step.C - before) <= 0.56 + 1e-9, $"{before} to {step.C} on {step.On}");
                Assert.True(q.Calendar.IsSchoolDay(step.On) && step.On >= q.FirstTurn, $"nobody is there on {step.On}");
                var inBand = step.C >= q.Rules.LowC - 1e-9 && step.C <= q.Rules.HighC + 1e-9;
                Assert.True(inBand || (q.SetPointC < q.Rules.LowC ? step.C > before : step.C < before), $"{step.C} lies outside the band");
            }

            before = step.C;
        }

        var end = course.FinalC;
        Assert.True(course.Turns == 0 || (end >= q.Rules.LowC - 1e-9 && end <= q.Rules.HighC + 1e-9));
    }

    [Fact]
    public void Run_forward_the_plan_gives_the_asked_day_of_hatch_within_a_day_for_a_thousand_tanks()
    {
        var (asked, none) = (0, 0);
        for (var seed = 0; asked < 1000; seed++)
        {
            var q = PlanCases.Random(seed);
            if (q.Hatch is null || ReachOf(SetPointPlanner.Plan(q)) is not { FirstHatch: { } first, LastHatch: { } last })
            {
                continue;
            }

            asked++;
            var day = first.AddDays(new Random(seed).Next(last.DayNumber - first.DayNumber + 1));
            var answer = SetPointPlanner.Plan(q with { Goal = SetPointGoal.HatchOn, GoalDay = day });
            AssertMayBeTurned(q, BestOf(answer));
            none += answer is NoSetPoints ? 1 : 0;
            if (answer is SetPointsFound { Best: var best })
            {
                var came = RunForward(q.Hatch, best, q.Today)!.Value;
                Assert.True(Math.Abs(came.DayNumber - day.DayNumber) <= 1, $"seed {seed}: asked {day}, came {came}");
                Assert.Equal(came, best.Hatch!.Mid);
            }
        }

        // Between the first and the last day that can be reached hardly one is missed.
        Assert.True(none <= 5, $"{none} of {asked} asked in vain");
    }

    [Fact]
    public void Run_forward_the_plan_has_half_swimming_by_the_asked_day()
    {
        for (var seed = 0; seed < 150; seed++)
        {
            var q = PlanCases.Random(seed);
            if (q.SwimUp is null || ReachOf(SetPointPlanner.Plan(q)) is not { FirstSwimUp: { } first, LastSwimUp: { } last })
            {
                continue;
            }

            var day = first.AddDays(new Random(seed).Next(last.DayNumber - first.DayNumber + 1));
            var found = Assert.IsType<SetPointsFound>(SetPointPlanner.Plan(q with { Goal = SetPointGoal.SwimUpBy, GoalDay = day }));
            Assert.True(RunForward(q.SwimUp, found.Best, q.Today) <= day, $"seed {seed}");
            Assert.Equal(RunForward(q.SwimUp, found.Best, q.Today), found.Best.SwimUp!.Mid);
            Assert.IsType<NoSetPoints>(SetPointPlanner.Plan(q with { Goal = SetPointGoal.SwimUpBy, GoalDay = first.AddDays(-1) }));
        }
    }

    [Fact]
    public void It_finds_what_a_plain_full_search_finds_and_none_where_that_finds_none()
    {
        var none = 0;

        // The plain search takes its time: the cases are independent, so each processor takes its share.
        Parallel.For(0, 100, seed =>
        {
            var q = PlanCases.Random(seed);
            q = q with
            {
                Rules = PlanCases.Rules with { LowC = 7 + (seed % 3), HighC = 8.2 + (seed % 3) },
                SetPointC = Math.Clamp(q.SetPointC, 6.5, 11),
                Goal = (SetPointGoal)(seed % 3),
                GoalDay = seed % 3 == 0 ? null : q.Today.AddDays(15 + (seed % 30)),
            };
            if (SetPointPlanner.Plan(q) is NothingToPlan)
            {
                return;
            }

            var answer = SetPointPlanner.Plan(q);
            var (best, plain) = (BestOf(answer), new PlainSearch(q).Best());
            var risk = best.HatchOnClosedDay + (q.Rules.SwimUpWeight * best.SwimUpInBadTime);
            Assert.Equal(plain.Miss > (q.Goal == SetPointGoal.HatchOn ? 1 : 0), answer is NoSetPoints);
            Assert.True(Math.Abs(plain.Risk - risk) < 1e-6 && plain.Turns == best.Turns, $"seed {seed}: {plain}; found {risk}, {best.Turns} turns");
            if (answer is NoSetPoints)
            {
                Interlocked.Increment(ref none);
            }
        });

        Assert.InRange(none, 10, 90);
    }

    [Fact]
    public void The_same_question_has_the_same_answer()
    {
        for (var seed = 0; seed < 20; seed++)
        {
            var (first, second) = (BestOf(SetPointPlanner.Plan(PlanCases.Random(seed))), BestOf(SetPointPlanner.Plan(PlanCases.Random(seed))));
            Assert.Equal(first.Steps, second.Steps);
        }
    }

    [Fact]
    public void A_tank_that_stands_well_is_left_alone()
    {
        // Hatch is expected on a Wednesday; warmer water would make that surer by less than anybody can know.
        var found = Assert.IsType<SetPointsFound>(SetPointPlanner.Plan(PlanCases.Trout(Monday.AddDays(2), 5)));

        Assert.Equal(DayOfWeek.Wednesday, found.Stay.Hatch!.Mid.DayOfWeek);
        Assert.True(found.LeaveAlone);
        Assert.Equal(10, Assert.Single(found.Best.Steps).C);
    }

    [Fact]
    public void Swim_up_is_moved_clear_of_a_break_and_of_the_ten_school_days_before_it()
    {
        var still = BestOf(SetPointPlanner.Plan(PlanCases.Trout(Monday, 5))).SwimUp!.Mid;
        var q = PlanCases.Trout(Monday, 5, 10, (still.AddDays(4), still.AddDays(12)));
        var found = Assert.IsType<SetPointsFound>(SetPointPlanner.Plan(q));

        Assert.True(found.Stay.SwimUpInBadTime > 0.6, $"{found.Stay.SwimUpInBadTime}");
        Assert.True(found.Best.SwimUpInBadTime < 0.2, $"{found.Best.SwimUpInBadTime}");
        Assert.True(found.Best.SwimUp!.Mid > still.AddDays(12) || found.Best.SwimUp.Mid < still.AddDays(-9));
        AssertMayBeTurned(q, found.Best);
    }

    [Fact]
    public void Where_no_course_has_hatch_on_the_asked_day_the_nearest_is_told_with_what_can_be_reached()
    {
        var q = PlanCases.Trout(Monday, 5) with { Goal = SetPointGoal.HatchOn, GoalDay = Monday.AddDays(2) };
        var none = Assert.IsType<NoSetPoints>(SetPointPlanner.Plan(q));

        Assert.Equal(none.Reach.FirstHatch, none.LeastBad.Hatch!.Mid);
        Assert.True(none.LeastBad.Hatch.Mid < none.Stay.Hatch!.Mid);
        Assert.True(none.Reach.LastHatch > none.Stay.Hatch.Mid);
    }

    [Fact]
    public void What_is_past_cannot_be_planned()
    {
        var q = PlanCases.Trout(Monday, 5);

        Assert.Equal(new NothingToPlan(WhyNothing.HatchIsPast), SetPointPlanner.Plan(q with { Hatch = null, Goal = SetPointGoal.HatchOn, GoalDay = Monday.AddDays(9) }));
        Assert.Equal(new NothingToPlan(WhyNothing.SwimUpIsPast), SetPointPlanner.Plan(q with { Hatch = null, SwimUp = null }));
        Assert.Null(Assert.IsType<SetPointsFound>(SetPointPlanner.Plan(q with { Hatch = null })).Best.Hatch);
    }

    [Theory]
    [InlineData(TemperatureUnit.F, 50, 49)]
    [InlineData(TemperatureUnit.C, 50, 49.1)]
    public void The_dial_turns_by_whole_Fahrenheit_or_half_Celsius(TemperatureUnit dial, double fromF, double firstF)
    {
        var q = PlanCases.Trout(Monday, 5, (fromF - 32) / 1.8) with { Dial = dial, Goal = SetPointGoal.HatchOn };
        var cold = SetPointPlanner.Plan(q with { GoalDay = ReachOf(SetPointPlanner.Plan(q with { GoalDay = Monday })).LastHatch });

        Assert.Equal(firstF, new Celsius(BestOf(cold).Steps.First(s => s.C != q.SetPointC).C).Fahrenheit, 6);
    }

    [Fact]
    public void A_dial_outside_the_band_is_brought_in_a_step_a_school_day()
    {
        var q = PlanCases.Trout(Monday, 3, 14);
        var best = BestOf(SetPointPlanner.Plan(q));

        AssertMayBeTurned(q, best);
        Assert.True(best.FinalC <= q.Rules.HighC);
    }

    [Fact]
    public void The_dates_of_a_dial_left_alone_are_those_of_the_tanks_own_page()
    {
        var delivered = Monday.AddDays(-5);
        Hatchery.Eggs.LotProfile lot = new("L1", Species.ChinookSalmon, delivered.AddDays(-30), delivered.AddDays(-28), 8.5, delivered, "R1");
        List<TankDay> days = [new() { Day = delivered, MeanC = 9 }, new() { Day = delivered.AddDays(3), MeanC = 10 }];
        var page = TankDevelopment.On(Monday, lot, days, 10);
        var q = PlanCases.Trout(Monday, 5) with
        {
            Hatch = page.Hatch?.Outlook,
            SwimUp = page.SwimUp?.Outlook,
        };
        var stay = ((SetPointsFound)SetPointPlanner.Plan(q)).Stay;

        Assert.Equal((page.Hatch!.Low80, page.Hatch.Mid, page.Hatch.High80), (stay.Hatch!.Low80, stay.Hatch.Mid, stay.Hatch.High80));
        Assert.Equal((page.SwimUp!.Low80, page.SwimUp.Mid, page.SwimUp.High80), (stay.SwimUp!.Low80, stay.SwimUp.Mid, stay.SwimUp.High80));
    }
}
