using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags;

/// <summary>From whose hatch a tank's dates were sharpened. Other tanks are counted, never named: a teacher sees only dates of them.</summary>
public static class LearnedWords
{
    /// <summary>
    /// "Sharpened by 3 sibling tanks of lot L1 that were seen hatching: hatch comes about 2 days later than by the model alone." Null while
    /// no hatch was seen.
    /// </summary>
    public static string? Of(DevelopmentNow now, string lot, Say say) => now.Learned switch
    {
        null => null,
        { OwnSetAside: true } => say["The hatch reported in this tank lies so far from all others that it moves no date. If it was a slip, correct that reading."],
        { Any: false } => null,
        { } from => say.Of("Sharpened by {0}{1}.", Tanks(from, lot, say), Moved(now, say)),
    };

    /// <summary>How many reports of a hatch were not believed; null when there was none.</summary>
    public static string? SetAside(DevelopmentNow now, Say say) => now.Learned switch
    {
        null or { SetAside: 0 } => null,
        { SetAside: 1 } => say["One report of a hatch in this lot lies too far from all others and is not used."],
        { SetAside: var several } => say.Of("{0} reports of a hatch in this lot lie too far from all others and are not used.", several),
    };

    private static string Tanks(LearnedFrom from, string lot, Say say)
    {
        var siblings = say.Count(from.Siblings, "one sibling tank of lot {1} that was seen hatching", "{0} sibling tanks of lot {1} that were seen hatching", lot);
        return (from.Siblings, from.Own) switch
        {
            (0, _) => say["the hatch seen in this tank"],
            (_, true) => say.Of("the hatch seen in this tank and by {0}", siblings),
            _ => siblings,
        };
    }

    /// <summary>The stage that is still asked for: the hatch until half were seen, then swim-up.</summary>
    private static string Moved(DevelopmentNow now, Say say)
    {
        var (name, forecast) = now.HalfHatchedOn is null ? (say["hatch"], now.Hatch) : (say["swim-up"], now.SwimUp);
        if (forecast is null)
        {
            return "";
        }

        var days = (int)Math.Round(forecast.LearnedDays);
        return days == 0
            ? say.Of(": {0} on the day that the model alone says", name)
            : days > 0 ? say.Count(days, ": {1} about {0} day later than by the model alone", ": {1} about {0} days later than by the model alone", name)
            : say.Count(-days, ": {1} about {0} day earlier than by the model alone", ": {1} about {0} days earlier than by the model alone", name);
    }
}
