using System.Globalization;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Accounts;

/// <summary>
/// Reads a form's fields as people type them and tells the field when it cannot. Everything is read before anything is refused, so that
/// one answer names all that is to be fixed.
/// </summary>
public sealed partial class TypedFields(Action<string, string> refuse, Say? reader = null)
{
    public const int LongestText = 400;

    /// <summary>The language that refusals are said in.</summary>
    public Say Say { get; } = reader ?? Say.InEnglish;

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

        Refuse(field, Say.Of("“{0}” is not a whole number. Type digits only, such as 120.", typed.Trim()));
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

        Refuse(timeField, Say["Give the time of day, such as 09:30."]);
        return clock.Utc(date, TimeOnly.MinValue);
    }

    public DateOnly Day(string field, string? typed)
    {
        if (DateOnly.TryParseExact(typed?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 2100)
        {
            return day;
        }

        Refuse(field, Say["Give the day, such as 2027-04-30."]);
        return new DateOnly(2001, 1, 1);
    }

    /// <summary>A number with a point or a comma; null where it may be left out and is.</summary>
    public double? Number(string field, string? typed, double least, double most, string example)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        var read = double.TryParse(typed.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value);
        if (read && value >= least && value <= most)
        {
            return value;
        }

        Refuse(field, read
            ? Say.Of("It has to lie between {0} and {1}; this is {2}.", least, most, value)
            : Say.Of("“{0}” is not a number. Type one such as {1}.", typed.Trim(), example));
        return null;
    }

    public string? Text(string field, string? typed)
    {
        var text = typed?.Trim();
        if (text is { Length: > LongestText })
        {
            Refuse(field, Say.Of("At most {0} characters fit here; this has {1}.", LongestText, text.Length));
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
            Refuse(field, Say["At most 100 characters, please."]);
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
