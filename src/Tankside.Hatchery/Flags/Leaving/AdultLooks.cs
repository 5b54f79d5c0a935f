using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>An adult with a key who looks at the tank while the school is closed: on the first closed day and every so many after.</summary>
internal static class AdultLooks
{
    public static IReadOnlyList<DateOnly> Days(Situation s, ClosedStretch stretch)
    {
        var every = Math.Max(1, (int)s.Limits[Limits.Leaving.LookEvery]);
        var ahead = stretch.ClosedDays.Where(d => At(s, d) > s.Now).ToList();
        var looks = ahead.Where((_, i) => i % every == 0).ToList();

        // The day before the doors open is not worth a way of its own.
        return looks.Count > 1 && looks[^1] == stretch.ClosedDays[^1] ? looks[..^1] : looks;
    }

    /// <summary>The moments of these looks, then the end; with no closed day left an adult comes as soon as a call finds one.</summary>
    public static IReadOnlyList<DateTime> Times(Situation s, ClosedStretch stretch, DateTime acts)
    {
        var days = Days(s, stretch).Select(d => At(s, d)).Where(t => t < acts).ToList();
        var soonest = s.Now + MorningRound.OutOfHours + MorningRound.ToAct;
        return days.Count > 0 ? [.. days, acts]
            : stretch.HasBegun(s.Now) && soonest < acts ? [soonest, acts]
            : [acts];
    }

    private static DateTime At(Situation s, DateOnly day) =>
        s.Record.Calendar.Clock.Utc(day, new TimeOnly((int)s.Limits[Limits.Leaving.LookHour], 0));
}
