using System.Globalization;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>In which order the numbers of a date stand.</summary>
public enum DateOrder
{
    MonthFirst,
    DayFirst,
}

/// <summary>A day, and the time of day when the cell holds one.</summary>
public readonly record struct SheetMoment(DateOnly Day, TimeOnly? Time);

/// <summary>Days and times as people and loggers write them.</summary>
public static partial class SheetDates
{
    private static readonly string[] Months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    private static readonly string[] SpanishMonths = ["ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"];

    /// <summary>Null for what is no date; a date that <paramref name="order"/> makes impossible is none.</summary>
    public static SheetMoment? Read(string text, DateOrder order)
    {
        text = text.Trim();
        if (Serial().IsMatch(text) && double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var serial) && serial is >= 36526 and < 80000)
        {
            var seconds = (int)Math.Round((serial - Math.Floor(serial)) * 86_400) % 86_400;
            return new(CellFormats.SerialDay((int)serial), text.Contains('.', StringComparison.Ordinal) ? TimeOnly.FromTimeSpan(TimeSpan.FromSeconds(seconds)) : null);
        }

        foreach (var shape in new[] { YearFirst(), Numbers(), MonthNamed(), DayNamed() })
        {
            if (shape.Match(text) is { Success: true } found)
            {
                var rest = text[found.Length..].TrimStart(' ', ',', 'T', 't', '-');
                var time = rest.Length == 0 ? null : ReadTime(rest);
                return (rest.Length > 0 && time is null) || DayOf(found, order) is not { } day ? null : new(day, time);
            }
        }

        return null;
    }

    /// <summary>"8:15", "8:15:30 PM", "8.15", "8h15", "8 AM", "8:15 a. m."; a fraction of a day as Excel keeps it.</summary>
    public static TimeOnly? ReadTime(string text)
    {
        text = text.Trim();
        if (text.StartsWith("0.", StringComparison.Ordinal) && double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var fraction))
        {
            return TimeOnly.FromTimeSpan(TimeSpan.FromSeconds(Math.Round(fraction * 86_400) % 86_400));
        }

        if (Clock().Match(text) is not { Success: true } found)
        {
            return null;
        }

        var (hour, minute, second) = (Number(found, "h"), Number(found, "m"), Number(found, "s"));
        var half = found.Groups["half"].Value.ToLowerInvariant().FirstOrDefault();
        if (half == default && !found.Groups["m"].Success)
        {
            return null; // A bare number is no time.
        }

        if (half != default)
        {
            if (hour is < 1 or > 12)
            {
                return null;
            }

            hour = (hour % 12) + (half == 'p' ? 12 : 0);
        }

        return hour < 24 && minute < 60 && second < 60 ? new TimeOnly(hour, minute, second) : null;
    }

    /// <summary>True when the cell's date can be read month first and day first, and is then two different days.</summary>
    public static (bool MonthFirst, bool DayFirst)? Ways(string text)
    {
        if (Numbers().Match(text.Trim()) is not { Success: true } found)
        {
            return null;
        }

        return (DayOf(found, DateOrder.MonthFirst) is not null, DayOf(found, DateOrder.DayFirst) is not null);
    }

    private static DateOnly? DayOf(Match found, DateOrder order)
    {
        var year = Number(found, "y");
        year += found.Groups["y"].Length <= 2 ? 2000 : 0;
        int month, day;
        if (found.Groups["name"] is { Success: true, Value: var name })
        {
            var start = name[..3].ToLowerInvariant();
            var place = Array.IndexOf(Months, start);
            (month, day) = ((place >= 0 ? place : Array.IndexOf(SpanishMonths, start)) + 1, Number(found, "d"));
        }
        else if (found.Groups["a"].Success)
        {
            var (a, b) = (Number(found, "a"), Number(found, "b"));
            (month, day) = order == DateOrder.MonthFirst ? (a, b) : (b, a);
        }
        else
        {
            (month, day) = (Number(found, "mo"), Number(found, "d"));
        }

        return year is >= 1900 and < 2200 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month) ? new DateOnly(year, month, day) : null;
    }

    private static int Number(Match found, string group) =>
        found.Groups[group].Success ? int.Parse(found.Groups[group].Value, CultureInfo.InvariantCulture) : 0;

    // [0-9] and not \d, which other scripts' digits are too: those are no numbers here.
    [GeneratedRegex(@"^[0-9]{5}(\.[0-9]+)?$")]
    private static partial Regex Serial();

    [GeneratedRegex(@"^(?<y>[0-9]{4})[-/.](?<mo>[0-9]{1,2})[-/.](?<d>[0-9]{1,2})(?![0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^(?:\p{L}{2,9}\.?,?\s+)?(?<a>[0-9]{1,2})[-/.](?<b>[0-9]{1,2})[-/.](?<y>[0-9]{4}|[0-9]{2})(?![0-9])", RegexOptions.CultureInvariant)]
    private static partial Regex Numbers();

    [GeneratedRegex(@"^(?:\p{L}{3,9}\.?,?\s+)?(?<name>jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|ene|abr|ago|dic)\p{L}*\.?[-\s]+(?<d>[0-9]{1,2})(?:st|nd|rd|th)?,?[-\s]+(?<y>[0-9]{4})(?![0-9])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex MonthNamed();

    [GeneratedRegex(@"^(?:\p{L}{3,9}\.?,?\s+)?(?<d>[0-9]{1,2})[-\s]+(?:de\s+)?(?<name>jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|ene|abr|ago|dic)\p{L}*\.?,?[-\s]+(?:de\s+)?(?<y>[0-9]{4}|[0-9]{2})(?![0-9])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex DayNamed();

    [GeneratedRegex(@"^(?<h>[0-9]{1,2})(?:[:.h](?<m>[0-9]{2})(?::(?<s>[0-9]{2})(?:[.,][0-9]{1,7})?)?)?\s*(?:(?<half>[ap])\.?\s*m\.?)?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Clock();
}
