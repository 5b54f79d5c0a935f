namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>
/// The search over all courses of one tank: no change, one hold, or two. A course is a first hold, a day, and a second hold; with the sums of
/// the first at hand the second costs only its few days of turning.
/// </summary>
internal sealed class CourseSearch
{
    /// <summary>Missed by more days than any calendar has: the stage never comes.</summary>
    private const int Never = 10_000;

    private readonly SetPointQuestion question;
    private readonly TroubleDays days;
    private readonly DialPositions dial;
    private readonly StageSums? hatch, swimUp;
    private readonly int goalDay;
    private readonly List<Course> alike = [];
    private int leastMiss = int.MaxValue;
    private double leastRisk = double.PositiveInfinity;
    private double firstHatch = double.PositiveInfinity, lastHatch, firstSwimUp = double.PositiveInfinity, lastSwimUp;

    public CourseSearch(SetPointQuestion question)
    {
        this.question = question;
        days = new TroubleDays(question);
        dial = new DialPositions(question.SetPointC, question.Dial, question.Rules);
        hatch = question.Hatch is { } h ? new StageSums(h, dial.C) : null;
        swimUp = question.SwimUp is { } s ? new StageSums(s, dial.C) : null;
        goalDay = question.GoalDay is { } day ? day.DayNumber - question.Today.DayNumber : 0;
        var still = PathTo(dial.Now);
        Stay = Told(new Course(still, null, 0, 0, 0, 0), still.Hatch, still.SwimUp);
    }

    /// <summary>The dial left where it stands.</summary>
    public SetPointCourse Stay { get; }

    /// <summary>Known once <see cref="Best"/> was asked.</summary>
    public Reach Reach => new(Day(firstHatch), Day(lastHatch), Day(firstSwimUp), Day(lastSwimUp));

    /// <summary>The best course; <paramref name="miss"/> is 0 when it does what is asked, else by how much it does not.</summary>
    public SetPointCourse Best(out int miss)
    {
        if (dial.MayStay)
        {
            Try(PathTo(dial.Now));
        }

        foreach (var hold in dial.Holds.Where(h => h != dial.Now))
        {
            Try(PathTo(hold));
        }

        miss = leastMiss;
        var best = alike.Where(c => c.Risk <= leastRisk + question.Rules.Alike)
            .OrderBy(c => c.Turns).ThenBy(c => c.Distance).ThenBy(c => c.Risk).First();
        var (hatched, swims) = best.Second is { } to ? best.First.Changing(best.Turn, to) : (best.First.Hatch, best.First.SwimUp);
        return Told(best, hatched, swims);
    }

    /// <summary>One course: its first hold and, where there is one, the second with the day of turning on which the dial leaves the first.</summary>
    /// <param name="Turn">Counted in days of turning.</param>
    /// <param name="Distance">The farthest that a hold lies from where the dial stands, °C.</param>
    private readonly record struct Course(HoldPath First, int? Second, int Turn, int Turns, double Risk, double Distance);

    private HoldPath PathTo(int hold) => new(dial, days.Turns, hatch, swimUp, hold);

    private void Try(HoldPath path)
    {
        if (path.Turns < 0)
        {
            return;
        }

        Weigh(new Course(path, null, 0, path.Turns, 0, Distance(path.Hold, path.Hold)), path.Hatch, path.SwimUp);
        var last = swimUp is null ? path.Hatch.Ahead : path.SwimUp.Ahead;
        foreach (var hold in dial.Holds)
        {
            if (hold == path.Hold || dial.TurnsBetween(path.Hold, hold) is not { } more)
            {
                continue;
            }

            var distance = Distance(path.Hold, hold);
            for (var turn = path.Turns; turn + more < days.Turns.Length && days.Turns[turn] <= last; turn++)
            {
                var (hatched, swims) = path.Changing(turn, hold);
                Weigh(new Course(path, hold, turn, path.Turns + more, 0, distance), hatched, swims);
            }
        }
    }

    private void Weigh(in Course course, StageDate hatched, StageDate swims)
    {
        Widen(hatched, ref firstHatch, ref lastHatch);
        Widen(swims, ref firstSwimUp, ref lastSwimUp);
        var miss = Miss(hatched, swims);
        if (miss > leastMiss)
        {
            return;
        }

        var risk = hatch is null ? 0 : days.HatchOnClosedDay(hatched);
        if (miss == leastMiss && risk > leastRisk + question.Rules.Alike)
        {
            return;
        }

        risk += swimUp is null ? 0 : question.Rules.SwimUpWeight * days.SwimUpInBadTime(swims);
        if (miss < leastMiss)
        {
            (leastMiss, leastRisk) = (miss, risk);
            alike.Clear();
        }

        if (risk <= leastRisk + question.Rules.Alike)
        {
            leastRisk = Math.Min(leastRisk, risk);
            alike.Add(course with { Risk = risk });
        }
    }

    /// <summary>
    /// By how much a course misses what is asked, by its expected days. Where hatch and swim-up cannot both be had, swim-up goes first: what
    /// hatches on a closed day is late to be looked at, what swims up before a break starves. A hatch expected on a weekend is no miss: two days are
    /// fewer than any forecast knows, and its chance is weighed with the rest.
    /// </summary>
    private int Miss(StageDate hatched, StageDate swims) => question.Goal switch
    {
        SetPointGoal.ClearOfClosedDays =>
            (hatch is not null && (double.IsInfinity(hatched.Ahead) || days.IsInBreak(hatched.Ahead)) ? 1 : 0)
            + (swimUp is not null && (double.IsInfinity(swims.Ahead) || days.IsBadForSwimUp(swims.Ahead)) ? 2 : 0),
        SetPointGoal.HatchOn => double.IsInfinity(hatched.Ahead) ? Never : Math.Abs((int)hatched.Ahead - goalDay),
        SetPointGoal.SwimUpBy => double.IsInfinity(swims.Ahead) ? Never : Math.Max(0, (int)swims.Ahead - goalDay),
    };

    /// <summary>Rounded, so that the same way up and down is the same.</summary>
    private double Distance(int first, int second) =>
        Math.Round(Math.Max(Math.Abs(dial.C[first] - dial.C[dial.Now]), Math.Abs(dial.C[second] - dial.C[dial.Now])), 3);

    private static void Widen(StageDate date, ref double first, ref double last)
    {
        if (double.IsFinite(date.Ahead))
        {
            (first, last) = (Math.Min(first, date.Ahead), Math.Max(last, date.Ahead));
        }
    }

    private DateOnly? Day(double ahead) => double.IsInfinity(ahead) || ahead <= 0 ? null : question.Today.AddDays((int)ahead);

    private SetPointCourse Told(Course course, StageDate hatched, StageDate swims)
    {
        var steps = new List<SetPointStep> { new(question.Today, dial.C[dial.Now]) };
        Turn(steps, 0, dial.Now, course.First.Hold);
        if (course.Second is { } second)
        {
            Turn(steps, course.Turn, course.First.Hold, second);
        }

        return new SetPointCourse(
            steps, course.Turns, Stage(question.Hatch, steps), Stage(question.SwimUp, steps),
            hatch is null ? 0 : days.HatchOnClosedDay(hatched), swimUp is null ? 0 : days.SwimUpInBadTime(swims));
    }

    private void Turn(List<SetPointStep> steps, int turn, int from, int to)
    {
        for (; from != to; turn++)
        {
            from = dial.Toward(from, to);
            var step = new SetPointStep(question.Today.AddDays(days.Turns[turn]), dial.C[from]);
            if (step.On == steps[^1].On)
            {
                steps.RemoveAt(steps.Count - 1);
            }

            steps.Add(step);
        }
    }

    /// <summary>The dates told are those of the forecast that all other pages show.</summary>
    private PlannedStage? Stage(StageOutlook? outlook, List<SetPointStep> steps)
    {
        if (outlook is null)
        {
            return null;
        }

        var (forecast, inRange) = outlook.In(SetPointCourse.Daily(steps, question.Today));
        if (forecast.DaysAhead is not { } ahead || ahead > TroubleDays.Horizon)
        {
            return null;
        }

        var band = forecast.Within(0.8);
        DateOnly On(double days) => question.Today.AddDays((int)Math.Floor(days));
        return new PlannedStage(On(ahead), On(band.Low), On(band.High), ahead, forecast.SdDays, inRange);
    }
}
