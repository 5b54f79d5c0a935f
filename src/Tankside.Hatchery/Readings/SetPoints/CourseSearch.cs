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
        Stay = Told(new Course(still, null, 0, 0, 0), still.Hatch, still.SwimUp);
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
        var (hatched, swims) = best.Second is null ? (best.First.Hatch, best.First.SwimUp) : best.First.Changing(best.Day, best.Second);
        return Told(best, hatched, swims);
    }

    /// <summary>One course: its first hold and, where there is one, the way to the second from a day on.</summary>
    /// <param name="Distance">The farthest that a hold lies from where the dial stands, °C.</param>
    private sealed record Course(HoldPath First, Ramp? Second, int Day, double Risk, double Distance)
    {
        public int Turns { get; } = First.Ramp.Turns + (Second?.Turns ?? 0);
    }

    private HoldPath PathTo(int hold) => new(dial, days, hatch, swimUp, hold);

    private void Try(HoldPath path)
    {
        if (!path.Ramp.EverArrives)
        {
            return;
        }

        Weigh(path, null, 0, path.Hatch, path.SwimUp);
        var last = Math.Min(TroubleDays.Horizon - 1, swimUp is null ? path.Hatch.Ahead : path.SwimUp.Ahead);
        for (var day = Math.Max(0, path.Ramp.Arrives + 1); day <= last; day++)
        {
            if (!days.IsTurn(day))
            {
                continue;
            }

            foreach (var hold in dial.Holds)
            {
                if (hold != path.Hold && new Ramp(dial, days, day, path.Hold, hold) is { EverArrives: true } ramp)
                {
                    var (hatched, swims) = path.Changing(day, ramp);
                    Weigh(path, ramp, day, hatched, swims);
                }
            }
        }
    }

    private void Weigh(HoldPath first, Ramp? second, int day, StageDate hatched, StageDate swims)
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
            alike.Add(new Course(first, second, day, risk, Distance(first.Hold, second?.To ?? first.Hold)));
        }
    }

    /// <summary>
    /// By how much a course misses what is asked, by its expected days. Where hatch and swim-up cannot both be had, swim-up goes first: what
    /// hatches on a closed day is late to be looked at, what swims up before a break starves.
    /// </summary>
    private int Miss(StageDate hatched, StageDate swims) => question.Goal switch
    {
        SetPointGoal.ClearOfClosedDays =>
            (hatch is not null && (double.IsInfinity(hatched.Ahead) || days.IsClosed(hatched.Ahead)) ? 1 : 0)
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
        Follow(steps, course.First.Ramp, 0);
        if (course.Second is { } second)
        {
            Follow(steps, second, course.Day);
        }

        return new SetPointCourse(
            steps, course.Turns, Stage(question.Hatch, steps), Stage(question.SwimUp, steps),
            hatch is null ? 0 : days.HatchOnClosedDay(hatched), swimUp is null ? 0 : days.SwimUpInBadTime(swims));
    }

    private void Follow(List<SetPointStep> steps, Ramp ramp, int from)
    {
        for (var day = from; day <= ramp.Arrives; day++)
        {
            var step = new SetPointStep(question.Today.AddDays(day), dial.C[ramp.At(day)]);
            if (step.On == steps[^1].On)
            {
                steps[^1] = step;
            }
            else if (step.C != steps[^1].C)
            {
                steps.Add(step);
            }
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
