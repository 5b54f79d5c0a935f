using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Flags.HatchCalendar;

namespace Tankside.Portal.Flags.Steering;

/// <summary>A plan's sentences.</summary>
public static class PlanWords
{
    public static string Of(WhyNothing why) => why switch
    {
        WhyNothing.SwimUpIsPast => "Half swim already, or should: no set-point moves swim-up any more.",
        WhyNothing.HatchIsPast => "They have hatched, or should have: no set-point moves the hatch any more.",
        WhyNothing.NoModel => "No published model tells this species' dates, so no set-point can be planned by them.",
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
        NothingToPlan nothing => Of(nothing.Why),
        NoSetPoints => $"No set-point in the safe band gives it: {Goal(goal, day, time)}.",
        SetPointsFound { LeaveAlone: true } found => $"Leave the dial at {scale.Both(found.Best.FinalC)}.",
        SetPointsFound found => $"{CountWords.Count(found.Best.Turns, "turn", "turns")} of the dial, ending at {scale.Both(found.Best.FinalC)}.",
        _ => "",
    };

    public static string Dates(PlannedStage? stage) => stage is null
        ? "-"
        : $"{TimeWords.Brief(stage.Mid, stage.Mid)}; 8 in 10: {TimeWords.Brief(stage.Low80, stage.High80)}";

    public static string Chance(double chance) => CalendarWords.Percent(chance, Shell.Say.InEnglish);

    /// <summary>What a course costs beside what it brings, a sentence each.</summary>
    /// <param name="releaseOn">The release asked for, where it was given.</param>
    /// <param name="permit">The last days that a permit allows, where one is known.</param>
    public static IEnumerable<string> TradeOffs(
        SetPointCourse stay, SetPointCourse best, DateOnly? releaseOn, PermitLimit? permit, LimitSet limits, ScaleWords scale, TimeWords time)
    {
        if (Moved(stay.SwimUp, best.SwimUp) is { } days and not 0)
        {
            yield return $"Swim-up comes {Days(days)}, and so does the earliest release.";
        }

        if (Moved(stay.Hatch, best.Hatch) is { } hatch and not 0)
        {
            yield return $"Hatch comes {Days(hatch)}.";
        }

        if (releaseOn is { } release && best.SwimUp is { } swims)
        {
            yield return swims.High80 <= release
                ? $"From swim-up to the release on {time.Day(release)} they have {CountWords.Count(release.DayNumber - swims.Mid.DayNumber, "day", "days")} to feed and grow."
                : $"The release on {time.Day(release)} may come before all swim: swim-up may last until {time.Day(swims.High80)}.";
        }

        if (permit is not null && best.SwimUp is { } up)
        {
            var (what, last) = (permit.Last == permit.Ends ? "The permit ends on" : "The permit lets these fish be held until", permit.Last);
            yield return up.High80 <= last
                ? $"{what} {time.Day(last)}, {CountWords.Count(last.DayNumber - up.High80.DayNumber, "day", "days")} after the late end of swim-up."
                : $"{what} {time.Day(last)}, before the late end of swim-up on {time.Day(up.High80)}: ask the agency before you take this plan.";
        }

        if (best.ColdestC < limits[Limits.SetPoints.ColdForFilter])
        {
            yield return $"Below {scale.Both(limits[Limits.SetPoints.ColdForFilter])} the filter ripens slowly: test ammonia more often once they feed (common practice, no source).";
        }
    }

    public static string Coming(Reach reach, TimeWords time) => string.Join(" ", new[]
    {
        Span("Hatch", reach.FirstHatch, reach.LastHatch, time), Span("Swim-up", reach.FirstSwimUp, reach.LastSwimUp, time),
    }.OfType<string>());

    private static string? Span(string name, DateOnly? first, DateOnly? last, TimeWords time) => first is { } from && last is { } to
        ? $"{name} can be brought to any time from {time.Stretch(from, to)}."
        : null;

    private static int? Moved(PlannedStage? from, PlannedStage? to) => from is null || to is null ? null : to.Mid.DayNumber - from.Mid.DayNumber;

    private static string Days(int days) =>
        $"{Math.Abs(days).ToString(CultureInfo.InvariantCulture)} {(Math.Abs(days) == 1 ? "day" : "days")} {(days > 0 ? "later" : "earlier")}";
}
