using System.Globalization;

namespace Tankside.Portal.Digests;

/// <summary>A reminder to one person of a permit's reports that are due on one day.</summary>
/// <param name="Late">Whether it says that they are late; before, it says that they will be due.</param>
public sealed record ReminderKey(bool Late, Guid Permit, DateOnly DueOn, Guid Person)
{
    private const string Word = "report", Day = "yyyy-MM-dd";

    public static ReminderKey? Read(string key) =>
        key.Split(' ') is [Word, "due" or "late", var permit, var day, var person]
        && Guid.TryParse(permit, out var of) && Guid.TryParse(person, out var to)
        && DateOnly.TryParseExact(day, Day, CultureInfo.InvariantCulture, DateTimeStyles.None, out var on)
            ? new ReminderKey(key.StartsWith($"{Word} late", StringComparison.Ordinal), of, on, to)
            : null;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Word} {(Late ? "late" : "due")} {Permit:N} {DueOn:yyyy-MM-dd} {Person:N}");
}
