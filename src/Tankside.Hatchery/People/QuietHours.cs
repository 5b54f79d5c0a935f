namespace Tankside.Hatchery.People;

/// <summary>Local hours of every day in which a person wants no mail. They may reach over midnight.</summary>
public sealed record QuietHours(TimeOnly From, TimeOnly To)
{
    /// <summary>Null when none are set; an end at the beginning would be no quiet at all.</summary>
    public static QuietHours? Of(TimeOnly? from, TimeOnly? to) => from is { } f && to is { } t && f != t ? new QuietHours(f, t) : null;

    /// <summary>When the quiet that <paramref name="now"/> falls into is over; null when it is not quiet.</summary>
    public DateTime? EndsAfter(DateTime now, ProgrammeClock clock)
    {
        var local = clock.Local(now);
        var (day, time) = (DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local));
        if (!time.IsBetween(From, To))
        {
            return null;
        }

        // In the hour that autumn gives twice the quiet ended the first time round, and does not begin again.
        var end = clock.Utc(To > time ? day : day.AddDays(1), To);
        return end > now ? end : null;
    }
}
