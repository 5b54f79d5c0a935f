using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>Monday to Friday from the wall sheet, typed in one go. Each row is a reading of its own: the good ones are stored, the others asked back.</summary>
public sealed class WeekAtOnce(IDbContextFactory<HatcheryDb> databases, RecordReadings record, TimeProvider time)
{
    private const int SchoolDays = 5;

    public async Task<IResult> ShowAsync(TankView view, Door door, DateOnly? of, CancellationToken cancel)
    {
        var monday = MondayOf(of ?? Today(view), view);
        var usual = UsualTime(view);
        var known = await KnownAsync(view, monday, cancel);
        return Page(view, door, monday, known, [.. Days(monday).Select(day => WeekRow.Empty(day, view.UsualUnit, usual, door.Words))]);
    }

    public async Task<IResult> SendAsync(TankView view, Door door, IFormCollection fields, CancellationToken cancel)
    {
        var monday = MondayOf(DateOnly.TryParseExact(fields["of"], "yyyy-MM-dd", out var of) ? of : Today(view), view);
        var rows = Days(monday).Index().Select(d => WeekRow.Read(fields, d.Index, d.Item, view.UsualUnit, DeadFieldOn(view, d.Item), UsualTime(view), door.Words)).ToList();
        var known = await KnownAsync(view, monday, cancel);
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

        return Page(view, door, monday, known, rows, rows.Any(r => r.Form.Errors.Count > 0) ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK);
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
        // An address may name any day; before these there is no week to go back to, nor any reading.
        var known = day > Today(view) || day.Year < 2000 ? Today(view) : day;
        return known.AddDays(-(((int)known.DayOfWeek + 6) % 7));
    }

    /// <summary>When this tank is usually read, or half an hour after the doors open.</summary>
    private static string UsualTime(TankView view)
    {
        var calendar = view.Record.Calendar;
        var times = view.Record.Recent.Select(r => TimeOnly.FromDateTime(calendar.Clock.Local(r.At))).Order().ToList();
        return (times.Count > 0 ? times[times.Count / 2] : calendar.Opens.AddMinutes(30)).ToString("HH:mm", CultureInfo.InvariantCulture);
    }

    /// <summary>The field in which the dead of that day are counted, by the stage the fish were at then.</summary>
    internal static string DeadFieldOn(TankView view, DateOnly day) => view.Record.Lot is not null
        ? TankView.DeadFieldOf(view.Record.AsOf(day.AddDays(1)).DevelopmentOn(day).Stage)
        : view.DeadField;

    /// <summary>What stands there already, so that nothing is typed a second time.</summary>
    private async Task<IReadOnlyList<Reading>> KnownAsync(TankView view, DateOnly monday, CancellationToken cancel)
    {
        var clock = view.Record.Calendar.Clock;
        var (from, until) = (clock.Utc(monday, TimeOnly.MinValue), clock.Utc(monday.AddDays(SchoolDays), TimeOnly.MinValue));
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Readings.AsNoTracking()
            .Where(r => r.TankId == view.Place.Tank.Id && r.At >= from && r.At < until && r.State == ReadingState.Accepted && r.CorrectedBy == null)
            .OrderBy(r => r.At).ToListAsync(cancel);
    }

    private static RazorComponentResult<WeekPage> Page(
        TankView view, Door door, DateOnly monday, IReadOnlyList<Reading> known, List<WeekRow> rows, int status = 200) =>
        new(new { View = view, Door = door, Monday = monday, Known = known, Rows = rows }) { StatusCode = status };
}
