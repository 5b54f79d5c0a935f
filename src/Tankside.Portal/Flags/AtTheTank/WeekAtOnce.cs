using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>Monday to Friday from the wall sheet, typed in one go. Each row is a reading of its own: the good ones are stored, the others asked back.</summary>
public sealed class WeekAtOnce(RecordReadings record, TimeProvider time)
{
    private const int SchoolDays = 5;

    public IResult Show(TankView view, Door door, DateOnly? of)
    {
        var monday = MondayOf(of ?? Today(view), view);
        var usual = UsualTime(view);
        return Page(view, door, monday, [.. Days(monday).Select(day => WeekRow.Empty(day, view.UsualUnit, usual, door.Words))]);
    }

    public async Task<IResult> SendAsync(TankView view, Door door, IFormCollection fields, CancellationToken cancel)
    {
        var monday = MondayOf(DateOnly.TryParseExact(fields["of"], "yyyy-MM-dd", out var of) ? of : Today(view), view);
        var rows = Days(monday).Index().Select(d => WeekRow.Read(fields, d.Index, d.Item, view.UsualUnit, view.DeadField, door.Words)).ToList();
        var ready = new List<(WeekRow Row, IncomingReading Reading)>();
        foreach (var row in rows.Where(r => !r.IsBlank && r.Form.Errors.Count == 0))
        {
            if (row.At(view.Record.Calendar.Clock) is { } at && ObservationRules.AcceptedTime(at, time.GetUtcNow().UtcDateTime) is not null)
            {
                ready.Add((row, Incoming(view, door, row, at)));
            }
            else
            {
                row.Form.Errors["time"] = door.Words["week.time"];
            }
        }

        var outcomes = await record.RecordAsync([.. ready.Select(r => r.Reading)], cancel);
        foreach (var ((row, reading), outcome) in ready.Zip(outcomes))
        {
            row.Outcome = outcome;
            if (outcome is IntakeOutcome.Rejected(var errors))
            {
                foreach (var (field, messages) in errors)
                {
                    row.Form.Errors[field] = field == "water" ? door.Words.Of("error.water", reading.Water!.Text)
                        : field == "id" ? door.Words["error.changed"]
                        : string.Join(" ", messages);
                }
            }
        }

        return Page(view, door, monday, rows, rows.Any(r => r.Form.Errors.Count > 0) ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK);
    }

    private static IncomingReading Incoming(TankView view, Door door, WeekRow row, DateTime at) => new()
    {
        SenderId = row.Form.Id,
        TankId = view.Place.Tank.Id,
        At = at,
        Seen = row.Form.Seen,
        Water = row.Form.Water,
        Source = ReadingSource.Person,
        EnteredBy = door.EnteredBy,
    };

    private static IEnumerable<DateOnly> Days(DateOnly monday) => Enumerable.Range(0, SchoolDays).Select(monday.AddDays);

    private static DateOnly Today(TankView view) => view.Record.Calendar.Clock.Day(view.Now);

    /// <summary>The Monday of that week; never one that is still to come.</summary>
    private static DateOnly MondayOf(DateOnly day, TankView view)
    {
        var known = day > Today(view) ? Today(view) : day;
        return known.AddDays(-(((int)known.DayOfWeek + 6) % 7));
    }

    /// <summary>When this tank is usually read, or half an hour after the doors open.</summary>
    private static string UsualTime(TankView view)
    {
        var calendar = view.Record.Calendar;
        var times = view.Record.Recent.Select(r => TimeOnly.FromDateTime(calendar.Clock.Local(r.At))).Order().ToList();
        return (times.Count > 0 ? times[times.Count / 2] : calendar.Opens.AddMinutes(30)).ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    private static RazorComponentResult<WeekPage> Page(TankView view, Door door, DateOnly monday, List<WeekRow> rows, int status = 200) =>
        new(new { View = view, Door = door, Monday = monday, Rows = rows }) { StatusCode = status };
}
