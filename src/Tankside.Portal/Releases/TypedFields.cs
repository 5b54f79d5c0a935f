using System.Globalization;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Portal.Releases;

/// <summary>
/// Reads a form's fields as people type them and tells the field when it cannot. Everything is read before anything is refused, so that
/// one answer names all that is to be fixed.
/// </summary>
public sealed partial class TypedFields(Action<string, string> refuse)
{
    public const int LongestText = 400;

    public bool AllGood { get; private set; } = true;

    public void Refuse(string field, string why)
    {
        AllGood = false;
        refuse(field, why);
    }

    /// <summary>A whole number: "1200", "1,200" and "1 200" are the same.</summary>
    public int Count(string field, string? typed, string whenEmpty)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            Refuse(field, whenEmpty);
            return 0;
        }

        return OptionalCount(field, typed) ?? 0;
    }

    public int? OptionalCount(string field, string? typed)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        var digits = Grouping().Replace(typed.Trim(), "");
        if (int.TryParse(digits, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count))
        {
            return count;
        }

        Refuse(field, $"“{typed.Trim()}” is not a whole number. Type digits only, such as 120.");
        return null;
    }

    /// <summary>A local day and time of day; the first instant of the season's clock when either cannot be read.</summary>
    public DateTime Moment(string dayField, string? day, string timeField, string? time, ProgrammeClock clock)
    {
        var date = Day(dayField, day);
        if (TimeOnly.TryParse(time, CultureInfo.InvariantCulture, out var hour))
        {
            return clock.Utc(date, hour);
        }

        Refuse(timeField, "Give the time of day, such as 09:30.");
        return clock.Utc(date, TimeOnly.MinValue);
    }

    public DateOnly Day(string field, string? typed)
    {
        if (DateOnly.TryParseExact(typed?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 2100)
        {
            return day;
        }

        Refuse(field, "Give the day, such as 2027-04-30.");
        return new DateOnly(2001, 1, 1);
    }

    /// <summary>A water temperature that may be left out; a number that cannot be meant on this scale is told, never changed.</summary>
    public double? WaterC(string field, string? typed, TemperatureUnit unit)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        if (!WaterTemperature.TryRead(typed, out var value, out var written))
        {
            Refuse(field, $"“{typed.Trim()}” is not a temperature. Type a number, such as {(unit == TemperatureUnit.F ? "50" : "10")}.");
            return null;
        }

        var scale = written ?? unit;
        if (WaterTemperature.Judge(value, scale, default, new TankHabits(null, null, 100, Jacket.None, 20)) is WaterVerdict.Believed(var celsius))
        {
            return celsius;
        }

        Refuse(field, $"Water of {value.ToString("0.##", CultureInfo.InvariantCulture)} °{scale} is not likely here. Look at the number and at the scale, °F or °C.");
        return null;
    }

    public string? Text(string field, string? typed)
    {
        var text = typed?.Trim();
        if (text is { Length: > LongestText })
        {
            Refuse(field, $"At most {LongestText} characters fit here; this has {text.Length}.");
        }

        return string.IsNullOrEmpty(text) ? null : text;
    }

    public string Name(string field, string? typed, string whenEmpty)
    {
        var text = Spaces().Replace(typed?.Trim() ?? "", " ");
        if (text.Length == 0)
        {
            Refuse(field, whenEmpty);
        }
        else if (text.Length > 100)
        {
            Refuse(field, "At most 100 characters, please.");
        }

        return text;
    }

    /// <summary>A choice of a list; <paramref name="whenEmpty"/> when none was made.</summary>
    public Guid Choice(string field, string? typed, string whenEmpty)
    {
        if (Guid.TryParse(typed, out var id))
        {
            return id;
        }

        Refuse(field, whenEmpty);
        return Guid.Empty;
    }

    public TChoice Choice<TChoice>(string field, string? typed, string whenEmpty)
        where TChoice : struct, Enum
    {
        if (Enum.TryParse<TChoice>(typed, out var choice) && Enum.IsDefined(choice))
        {
            return choice;
        }

        Refuse(field, whenEmpty);
        return default;
    }

    /// <summary>What stands between groups of three digits.</summary>
    [GeneratedRegex(@"(?<=\d)[,\u00a0\u202f ](?=\d{3}(\D|$))")]
    private static partial Regex Grouping();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
