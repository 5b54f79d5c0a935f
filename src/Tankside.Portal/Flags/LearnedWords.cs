using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Flags;

/// <summary>From whose hatch a tank's dates were sharpened. Other tanks are counted, never named: a teacher sees only dates of them.</summary>
public static class LearnedWords
{
    /// <summary>
    /// "Sharpened by 3 sibling tanks of lot L1 that were seen hatching: hatch comes about 2 days later than by the model alone." Null while
    /// no hatch was seen.
    /// </summary>
    public static string? Of(DevelopmentNow now, string lot) => now.Learned switch
    {
        null => null,
        { OwnSetAside: true } => "The hatch reported in this tank lies so far from all others that it moves no date. If it was a slip, correct that reading.",
        { Any: false } => null,
        { } from => $"Sharpened by {Tanks(from, lot)}{Moved(now)}.",
    };

    /// <summary>How many reports of a hatch were not believed; null when there was none.</summary>
    public static string? SetAside(DevelopmentNow now) => now.Learned switch
    {
        null or { SetAside: 0 } => null,
        { SetAside: 1 } => "One report of a hatch in this lot lies too far from all others and is not used.",
        { SetAside: var several } => $"{several} reports of a hatch in this lot lie too far from all others and are not used.",
    };

    private static string Tanks(LearnedFrom from, string lot)
    {
        var siblings = from.Siblings == 1 ? $"one sibling tank of lot {lot} that was seen hatching" : $"{from.Siblings} sibling tanks of lot {lot} that were seen hatching";
        return (from.Siblings, from.Own) switch
        {
            (0, _) => "the hatch seen in this tank",
            (_, true) => $"the hatch seen in this tank and {siblings}",
            _ => siblings,
        };
    }

    /// <summary>The stage that is still asked for: the hatch until half were seen, then swim-up.</summary>
    private static string Moved(DevelopmentNow now)
    {
        var (name, forecast) = now.HalfHatchedOn is null ? ("hatch", now.Hatch) : ("swim-up", now.SwimUp);
        if (forecast is null)
        {
            return "";
        }

        var days = (int)Math.Round(forecast.LearnedDays);
        return days == 0
            ? $": {name} on the day that the model alone says"
            : $": {name} about {CountWords.Count(Math.Abs(days), "day", "days")} {(days > 0 ? "later" : "earlier")} than by the model alone";
    }
}
