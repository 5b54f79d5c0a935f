using System.Globalization;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Reads a run's forms and tells each field what is wrong; everything is read before anything is refused.</summary>
internal sealed class RunFields(Action<string, string> refuse)
{
    public bool AllGood { get; private set; } = true;

    public void Refuse(string field, string why)
    {
        AllGood = false;
        refuse(field, why);
    }

    public string Name(string field, string? typed, string whenEmpty)
    {
        var text = typed?.Trim() ?? "";
        if (text.Length is 0 or > 100)
        {
            Refuse(field, text.Length == 0 ? whenEmpty : "At most 100 characters, please.");
        }

        return text;
    }

    public DateOnly Day(string field, string? typed)
    {
        if (DateOnly.TryParseExact(typed?.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 2100)
        {
            return day;
        }

        Refuse(field, "Give the day, such as 2027-01-15.");
        return new DateOnly(2001, 1, 1);
    }

    public TimeOnly? Time(string field, string? typed)
    {
        if (string.IsNullOrWhiteSpace(typed))
        {
            return null;
        }

        if (TimeOnly.TryParse(typed.Trim(), CultureInfo.InvariantCulture, out var time))
        {
            return time;
        }

        Refuse(field, $"“{typed.Trim()}” is not a time of day. Give one such as 09:30.");
        return null;
    }

    public int Whole(string field, string? typed, int least, int most, string what)
    {
        if (int.TryParse(typed?.Trim(), NumberStyles.Integer, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        Refuse(field, $"Give {what} as a whole number from {least} to {most}.");
        return least;
    }

    public double Number(string field, string? typed, double least, double most, string what)
    {
        if (double.TryParse(typed?.Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
        {
            return number;
        }

        Refuse(field, string.Create(CultureInfo.InvariantCulture, $"Give {what} as a number from {least} to {most}."));
        return least;
    }
}
