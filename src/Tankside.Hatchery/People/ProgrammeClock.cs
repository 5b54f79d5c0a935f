namespace Tankside.Hatchery.People;

/// <summary>Turns instants (UTC) into the programme's local days and times and back.</summary>
public sealed class ProgrammeClock(TimeZoneInfo zone)
{
    public TimeZoneInfo Zone { get; } = zone;

    public static ProgrammeClock Of(string timeZone) => new(TimeZoneInfo.FindSystemTimeZoneById(timeZone));

    public DateTime Local(DateTime utc) => TimeZoneInfo.ConvertTimeFromUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc), Zone);

    public DateOnly Day(DateTime utc) => DateOnly.FromDateTime(Local(utc));

    /// <summary>
    /// The instant of a local wall-clock time. A time that the spring change of clocks skips is moved forward by the skipped hour;
    /// a time that comes twice in autumn is the first of the two. At the ends of all days, where no UTC is left, it is the nearest there is.
    /// </summary>
    public DateTime Utc(DateOnly day, TimeOnly time)
    {
        var local = day.ToDateTime(time, DateTimeKind.Unspecified);
        if (Zone.IsInvalidTime(local))
        {
            local = local.AddHours(1);
        }

        var offset = Zone.IsAmbiguousTime(local) ? Zone.GetAmbiguousTimeOffsets(local).Max() : Zone.GetUtcOffset(local);
        return new DateTime(Math.Clamp(local.Ticks - offset.Ticks, DateTime.MinValue.Ticks, DateTime.MaxValue.Ticks), DateTimeKind.Utc);
    }
}
