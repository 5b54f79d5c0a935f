namespace Tankside.Hatchery.Seasons;

/// <summary>Why a season cannot have these days.</summary>
public enum SeasonRefusal
{
    EndsBeforeItStarts,

    TooLong,

    /// <summary>Two seasons on one day: nobody could say which of them a line belongs to.</summary>
    Overlaps,

    /// <summary>Something was entered into it on a day that would lie outside.</summary>
    LeavesLinesOutside,
}

/// <summary>A season's days.</summary>
public static class SeasonRules
{
    /// <summary>A rearing year and a half; longer is a slip in the year (no source).</summary>
    public const int MostDays = 550;

    /// <param name="others">The programme's other seasons.</param>
    /// <param name="entered">The first and last day on which something stands in its ledger; null for an empty one.</param>
    public static IEnumerable<SeasonRefusal> Check(DateOnly starts, DateOnly ends, IEnumerable<Season> others, (DateOnly First, DateOnly Last)? entered)
    {
        if (ends <= starts)
        {
            yield return SeasonRefusal.EndsBeforeItStarts;
            yield break;
        }

        if (ends.DayNumber - starts.DayNumber > MostDays)
        {
            yield return SeasonRefusal.TooLong;
        }

        if (others.Any(o => o.StartsOn <= ends && starts <= o.EndsOn))
        {
            yield return SeasonRefusal.Overlaps;
        }

        if (entered is { } lines && (lines.First < starts || lines.Last > ends))
        {
            yield return SeasonRefusal.LeavesLinesOutside;
        }
    }
}
