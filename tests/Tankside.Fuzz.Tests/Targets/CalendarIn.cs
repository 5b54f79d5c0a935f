using Tankside.Portal.Places.Sheets;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>A school district's calendar file.</summary>
public static class CalendarIn
{
    private static readonly string[] Lines =
    [
        "BEGIN:VEVENT", "END:VEVENT", "DTSTART;VALUE=DATE:20270215", "DTSTART;VALUE=DATE:20270216", "DTEND;VALUE=DATE:20270220", "DTSTART:20270215T080000Z", "DTSTART;TZID=America/Denver:20270215T080000", "DTEND:20270216T000000",
        "DURATION:P3D", "DURATION:P1W", "DURATION:-P1D", "DURATION:PT1H", "DURATION:P99999999W", "SUMMARY:Winter break", "SUMMARY:" + "No school 😀 " + "No school 😀 No school 😀 No school 😀 No school 😀 No school 😀 No school 😀", "SUMMARY;LANGUAGE=en:a\\, b\\n c",
        "RRULE:FREQ=WEEKLY;BYDAY=MO", "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", "RRULE:FREQ=DAILY;INTERVAL=0", "RRULE:FREQ=SECONDLY", "RRULE:FREQ=MONTHLY;BYDAY=-1FR,+2MO;COUNT=99999", "RRULE:FREQ=YEARLY;BYYEARDAY=1,2,3,366,-366",
        "RRULE:FREQ=YEARLY;BYWEEKNO=53;UNTIL=20990101", "RRULE:FREQ=DAILY;BYSETPOS=-1,1;BYMONTH=1,2,3,4,5,6,7,8,9,10,11,12", "RDATE;VALUE=DATE:20270301,20270302", "RDATE;VALUE=PERIOD:20270301T000000Z/P1D", "EXDATE;VALUE=DATE:20270215",
        "STATUS:CANCELLED", "UID:x", "BEGIN:VALARM", "END:VALARM", "BEGIN:VTIMEZONE", "END:VTIMEZONE", "BEGIN:VCALENDAR", "END:VCALENDAR", "X-WR-CALNAME:District", "RECURRENCE-ID;VALUE=DATE:20270215", " folded", "ATTACH:data:,x", "GEO:1;2", "PRIORITY:x",
        "TZOFFSETFROM:-0700", "DTSTART;VALUE=DATE:99991231", "DTSTART;VALUE=DATE:00010101", "EXRULE:FREQ=DAILY", "CLASS", ":", ";=:",
    ];

    public static Target Target { get; } = new("calendar-in", Make, Read) { Words = [.. Lines.Select(l => l + "\r\n")], MostBytesOnce = 256 << 20, MostBytesEach = 20_000, LongestInput = 40_000, Slice = 150 };

    private static byte[] Make(Dice dice)
    {
        var events = Enumerable.Range(0, dice.Below(5)).Select(_ => $"BEGIN:VEVENT\r\n{string.Concat(Enumerable.Range(0, dice.Below(8)).Select(_ => dice.Of(Lines) + "\r\n"))}END:VEVENT\r\n");
        return Texts.Bytes($"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n{string.Concat(events)}END:VCALENDAR\r\n");
    }

    private static string Read(byte[] bytes)
    {
        var (from, to) = (new DateOnly(2026, 9, 1), new DateOnly(2027, 7, 31));
        try
        {
            var read = CalendarFile.Read(Texts.Read(bytes), from, to);
            Held.That(read.Days.Count <= CalendarFile.MostDays, "More days were taken than fit.");
            foreach (var days in read.Days)
            {
                Held.That(days.First <= days.Last && days.Last >= from && days.First <= to, "Days outside what was asked for were taken.");
                Held.That(days.Reason.Length is > 0 and <= 80, "A reason is empty or too long.");
                Held.Storable(days.Reason, "A reason");
            }

            return $"{Some(read.Days.Count)} {Some(read.Timed)} {Some(read.Outside)} {Some(read.Twice)} {Some(read.Unread)}";
        }
        catch (NoCalendarException e)
        {
            Held.Said([e.Message]);
            return e.Message;
        }
    }

    private static string Some(int count) => count switch { 0 => "none", 1 => "one", _ => "some" };
}
