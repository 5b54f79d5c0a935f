using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.HatchCalendar;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>
/// The calendar that we write: whatever a school, a tank or a room is called, its lines are lines of RFC 5545. They are taken apart here by hand,
/// since the portal writes and reads with one and the same library.
/// </summary>
public static class CalendarOut
{
    private static readonly string[] Words = ["A001", "Birch Lane School", "Wren's room, 6", "a;b", "a\\nb", "\r\nBEGIN:VEVENT\r\n", "END:VCALENDAR", ":", "東京のとても長い学校の名前です", "😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀😀", "\u0301"];

    public static Target Target { get; } = new("calendar-out", dice => Texts.Bytes(Texts.Of(dice, Words, 9)), Read) { Words = Words, LongestInput = 400, MostBytesOnce = 16 << 20 };

    private static string Read(byte[] bytes)
    {
        var name = Texts.Read(bytes);
        var now = new CalendarNow(new DateTime(2027, 2, 3, 15, 0, 0, DateTimeKind.Utc), ProgrammeClock.Of("America/Denver"), name, [], 0, []);
        var text = new FeedText(now, new Uri("https://tankside.example.test/")).Write($"Hatch calendar, {name}", [new ComingEggs(Guid.Empty, name, new DateOnly(2027, 3, 1), 250)]);
        Held.That(text.EndsWith("\r\n", StringComparison.Ordinal) && !text.Replace("\r\n", "", StringComparison.Ordinal).AsSpan().ContainsAny('\r', '\n'), "A line does not end in CR LF.");
        var lines = text.Split("\r\n")[..^1];
        Held.That(lines.All(l => Encoding.UTF8.GetByteCount(l) <= 75), "A line is longer than 75 octets.");
        var whole = text.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n")[..^1];
        Held.That(whole.All(l => l.IndexOfAny([';', ':']) is > 0 and var end && l.AsSpan(0, end).ContainsAnyExceptInRange('-', 'Z') is false), "A line has no name.");
        Held.That(!text.Any(c => char.IsControl(c) && c is not ('\r' or '\n' or '\t')), "A control sign stands in it.");
        Held.That(whole.Count(l => l.StartsWith("BEGIN:", StringComparison.Ordinal)) == 2 && whole.Count(l => l.StartsWith("SUMMARY", StringComparison.Ordinal)) == 1, "A name made a line of its own.");
        Held.That(Value(whole, "SUMMARY") == Kept($"{name}: 250 eggs come"), $"The title reads “{Value(whole, "SUMMARY")}”.");
        Held.That(Value(whole, "X-WR-CALNAME") == Kept($"Hatch calendar, {name}"), $"The name reads “{Value(whole, "X-WR-CALNAME")}”.");
        return $"{whole.Length} lines";
    }

    /// <summary>What of a name an iCalendar line can hold.</summary>
    private static string Kept(string text) => string.Concat(text.Select(c => char.IsControl(c) || c is '\u2028' or '\u2029' ? ' ' : c));

    /// <summary>RFC 5545, 3.3.11: the four signs that are written with a backslash.</summary>
    private static string Value(string[] lines, string name)
    {
        var raw = lines.Single(l => l.StartsWith(name, StringComparison.Ordinal))[(name.Length + 1)..];
        var value = new StringBuilder();
        for (var i = 0; i < raw.Length; i++)
        {
            Held.That(raw[i] is not (',' or ';'), "A comma or semicolon stands without a backslash.");
            if (raw[i] == '\\')
            {
                Held.That(++i < raw.Length && raw[i] is '\\' or ',' or ';' or 'n' or 'N', "A backslash stands alone.");
                value.Append(raw[i] is 'n' or 'N' ? '\n' : raw[i]);
            }
            else
            {
                value.Append(raw[i]);
            }
        }

        return value.ToString();
    }
}
