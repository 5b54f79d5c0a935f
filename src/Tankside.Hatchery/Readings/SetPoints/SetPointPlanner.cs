namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>
/// Finds the set-points that bring a tank's hatch and swim-up to good days. Every course of the dial is looked at that goes to a hold in the
/// safe band and, on any later school day, on to a second one, a step a school day. Of those that do what is asked (or miss it least) the
/// chance of trouble decides; of those alike in it the fewest turns of the dial, then the smallest distance from where it stands.
/// </summary>
public static class SetPointPlanner
{
    public static SetPointAnswer Plan(SetPointQuestion question)
    {
        if (Nothing(question) is { } why)
        {
            return new NothingToPlan(why);
        }

        var search = new CourseSearch(question);
        var best = search.Best(out var miss);
        return miss <= (question.Goal == SetPointGoal.HatchOn ? 1 : 0)
            ? new SetPointsFound(search.Stay, best, search.Reach)
            : new NoSetPoints(search.Stay, best, search.Reach);
    }

    private static WhyNothing? Nothing(SetPointQuestion question) => (question.Goal, question.Hatch, question.SwimUp) switch
    {
        (SetPointGoal.HatchOn, null, _) => WhyNothing.HatchIsPast,
        (SetPointGoal.SwimUpBy, _, null) or (_, null, null) => WhyNothing.SwimUpIsPast,
        _ => null,
    };
}
