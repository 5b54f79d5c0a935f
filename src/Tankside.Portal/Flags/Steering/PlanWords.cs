using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Steering;

/// <summary>A plan's sentences.</summary>
public static class PlanWords
{
    public static string Of(WhyNothing why, Say say) => why switch
    {
        WhyNothing.SwimUpIsPast => say["Half swim already, or should: no set-point moves swim-up any more."],
        WhyNothing.HatchIsPast => say["They have hatched, or should have: no set-point moves the hatch any more."],
        WhyNothing.NoModel => say["No published model tells this species' dates, so no set-point can be planned by them."],
    };

    /// <summary>"hatch on Tue 9 February".</summary>
    /// <summary>Whose tanks are planned.</summary>
    public static string Of(string? lot, string? school) => (string.IsNullOrEmpty(lot), string.IsNullOrEmpty(school)) switch
    {
        (true, true) => "the whole programme",
        (false, true) => $"lot {lot}",
        (true, false) => school!,
        _ => $"lot {lot} at {school}",
    };

    public static string Goal(SetPointGoal goal, DateOnly? day, TimeWords time) => goal switch
    {
        SetPointGoal.HatchOn when day is { } on => time.Say.Of("hatch on {0}", time.Day(on)),
        SetPointGoal.SwimUpBy when day is { } by => time.Say.Of("swim-up by {0}", time.Day(by)),
        _ => time.Say["hatch outside a break, swim-up clear of one"],
    };

    /// <summary>The page's answer.</summary>
    public static string Answer(SetPointAnswer answer, ScaleWords scale, SetPointGoal goal, DateOnly? day, TimeWords time) => answer switch
    {
        NothingToPlan nothing => Of(nothing.Why, time.Say),
        NoSetPoints => time.Say.Of("No set-point in the safe band gives it: {0}.", Goal(goal, day, time)),
        SetPointsFound { LeaveAlone: true } found => time.Say.Of("Leave the dial at {0}.", scale.Both(found.Best.FinalC)),
        SetPointsFound found => time.Say.Count(found.Best.Turns, "{0} turn of the dial, ending at {1}.", "{0} turns of the dial, ending at {1}.", scale.Both(found.Best.FinalC)),
        _ => "",
    };

    public static string Dates(PlannedStage? stage, Say say) => stage is null
        ? "-"
        : say.Of("{0}; 8 in 10: {1}", TimeWords.Brief(stage.Mid, stage.Mid, say), TimeWords.Brief(stage.Low80, stage.High80, say));

    public static string Chance(double chance, Say? reader = null) => CalendarWords.Percent(chance, reader ?? Say.InEnglish);

    /// <summary>What a course costs beside what it brings, a sentence each.</summary>
    /// <param name="releaseOn">The release asked for, where it was given.</param>
    /// <param name="permit">The last days that a permit allows, where one is known.</param>
    public static IEnumerable<string> TradeOffs(
        SetPointCourse stay, SetPointCourse best, DateOnly? releaseOn, PermitLimit? permit, LimitSet limits, ScaleWords scale, TimeWords time)
    {
        var say = time.Say;
        if (Moved(stay.SwimUp, best.SwimUp) is { } days and not 0)
        {
            yield return say.Of("Swim-up comes {0}, and so does the earliest release.", Days(days, say));
        }

        if (Moved(stay.Hatch, best.Hatch) is { } hatch and not 0)
        {
            yield return say.Of("Hatch comes {0}.", Days(hatch, say));
        }

        if (releaseOn is { } release && best.SwimUp is { } swims)
        {
            yield return swims.High80 <= release
                ? say.Count(release.DayNumber - swims.Mid.DayNumber,
                    "From swim-up to the release on {1} they have {0} day to feed and grow.", "From swim-up to the release on {1} they have {0} days to feed and grow.", time.Day(release))
                : say.Of("The release on {0} may come before all swim: swim-up may last until {1}.", time.Day(release), time.Day(swims.High80));
        }

        if (permit is not null && best.SwimUp is { } up)
        {
            var last = permit.Last;
            var ends = last == permit.Ends ? say.Of("The permit ends on {0}", time.Day(last)) : say.Of("The permit lets these fish be held until {0}", time.Day(last));
            yield return up.High80 <= last
                ? say.Count(last.DayNumber - up.High80.DayNumber, "{1}, {0} day after the late end of swim-up.", "{1}, {0} days after the late end of swim-up.", ends)
                : say.Of("{0}, before the late end of swim-up on {1}: ask the agency before you take this plan.", ends, time.Day(up.High80));
        }

        if (best.ColdestC < limits[Limits.SetPoints.ColdForFilter])
        {
            yield return say.Of("Below {0} the filter ripens slowly: test ammonia more often once they feed (common practice, no source).", scale.Both(limits[Limits.SetPoints.ColdForFilter]));
        }
    }

    public static string Coming(Reach reach, TimeWords time) => string.Join(" ", new[]
    {
        reach is { FirstHatch: { } hatch, LastHatch: { } lastHatch } ? time.Say.Of("Hatch can be brought to any time from {0}.", time.Stretch(hatch, lastHatch)) : null,
        reach is { FirstSwimUp: { } swim, LastSwimUp: { } lastSwim } ? time.Say.Of("Swim-up can be brought to any time from {0}.", time.Stretch(swim, lastSwim)) : null,
    }.OfType<string>());

    private static int? Moved(PlannedStage? from, PlannedStage? to) => from is null || to is null ? null : to.Mid.DayNumber - from.Mid.DayNumber;

    private static string Days(int days, Say say) => days > 0
        ? say.Count(days, "{0} day later", "{0} days later")
        : say.Count(-days, "{0} day earlier", "{0} days earlier");
}
