using System.Globalization;
using Microsoft.Extensions.Primitives;
using Tankside.Hatchery.People;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>One day of a week at once, as typed, with what became of it.</summary>
public sealed class WeekRow
{
    /// <summary>What a row asks, in the order of the wall sheet.</summary>
    public static readonly string[] Ticks = ["moving", "bubbles", "levelOk", "clear"];

    private WeekRow(DateOnly day, ReadingFormInput form, string time)
    {
        Day = day;
        Form = form;
        Time = time;
    }

    public DateOnly Day { get; }

    /// <summary>The row read like a form of its own, so that its slips are answered in the same words.</summary>
    public ReadingFormInput Form { get; }

    /// <summary>The local time of the reading, as typed.</summary>
    public string Time { get; }

    /// <summary>True when the row says that all four are as they should be.</summary>
    public bool AllWell { get; private init; }

    /// <summary>What became of it; null while nothing was sent, or while it has mistakes.</summary>
    public IntakeOutcome? Outcome { get; set; }

    public bool IsBlank { get; private init; } = true;

    public bool IsStored => Outcome is IntakeOutcome.Accepted or IntakeOutcome.Duplicate or IntakeOutcome.Asked;

    public IEnumerable<string> Errors => Form.Errors.Values;

    public static WeekRow Empty(DateOnly day, TemperatureUnit unit, string time, ClassWords words) =>
        new(day, ReadingFormInput.Empty(Guid.CreateVersion7(), unit, words), time);

    /// <param name="fields">The posted grid; a row's fields end in its number.</param>
    public static WeekRow Read(IFormCollection fields, int number, DateOnly day, TemperatureUnit usual, string deadField, string usualTime, ClassWords words)
    {
        var allWell = Typed("ok").Length > 0;
        var own = new Dictionary<string, StringValues> { ["id"] = Typed("id"), ["unit"] = Typed("unit"), ["water"] = Typed("water"), ["note"] = Typed("note"), [deadField] = Typed("dead") };
        var unread = new List<string>();
        foreach (var tick in Ticks)
        {
            if (YesNo(Typed(tick)) is { } said)
            {
                own[tick] = said.Length == 0 && allWell ? "true" : said;
            }
            else
            {
                own[tick] = Typed(tick);
                unread.Add(tick);
            }
        }

        var blank = !allWell && unread.Count == 0 && own.Where(f => f.Key is not ("id" or "unit")).All(f => f.Value.ToString().Length == 0);
        var row = new WeekRow(day, ReadingFormInput.Read(new FormCollection(own), Guid.CreateVersion7(), usual, words), Typed("id").Length == 0 ? usualTime : Typed("time")) { AllWell = allWell, IsBlank = blank };
        if (blank)
        {
            row.Form.Errors.Clear();
        }

        foreach (var tick in unread)
        {
            row.Form.Errors[tick] = words["week.yesno"];
        }

        return row;

        string Typed(string field) => fields[$"{field}.{number}"].ToString().Trim();
    }

    /// <summary>When it was read, UTC; null when the time makes no sense.</summary>
    public DateTime? At(ProgrammeClock clock) =>
        TimeOnly.TryParseExact(Time, ["HH:mm", "H:mm", "HH.mm", "H.mm", "h:mm tt", "h:mmtt"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? clock.Utc(Day, time)
            : null;

    /// <summary>"true", "false", or empty where nobody looked; null for what is neither yes nor no.</summary>
    private static string? YesNo(string typed) => typed.ToLowerInvariant() switch
    {
        "" => "",
        "y" or "yes" or "s" or "sí" or "si" or "x" or "1" or "+" => "true",
        "n" or "no" or "0" or "-" => "false",
        _ => null,
    };
}
