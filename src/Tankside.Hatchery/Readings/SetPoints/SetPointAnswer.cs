namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>What the planner has to say about a question.</summary>
public abstract record SetPointAnswer;

/// <summary>A course that does what is asked.</summary>
/// <param name="Stay">What comes when nobody touches the dial.</param>
/// <param name="Best">The course to take; the same as <paramref name="Stay"/> when the dial is best left alone.</param>
public sealed record SetPointsFound(SetPointCourse Stay, SetPointCourse Best, Reach Reach) : SetPointAnswer
{
    public bool LeaveAlone => Best.Turns == 0;
}

/// <summary>No course inside the band does what is asked; every one that the dial can take was looked at.</summary>
/// <param name="LeastBad">The one that comes nearest.</param>
public sealed record NoSetPoints(SetPointCourse Stay, SetPointCourse LeastBad, Reach Reach) : SetPointAnswer;

/// <summary>There is nothing that a set-point could still move.</summary>
public sealed record NothingToPlan(WhyNothing Why) : SetPointAnswer;

public enum WhyNothing
{
    /// <summary>Half swim already, by what was seen or by the model.</summary>
    SwimUpIsPast,

    /// <summary>A day of hatch was asked for and they have hatched.</summary>
    HatchIsPast,

    /// <summary>No published model tells a date for this species.</summary>
    NoModel,
}

/// <summary>Between which days the set-points of the band can bring the stages, courses of two holds counted.</summary>
public sealed record Reach(DateOnly? FirstHatch, DateOnly? LastHatch, DateOnly? FirstSwimUp, DateOnly? LastSwimUp);
