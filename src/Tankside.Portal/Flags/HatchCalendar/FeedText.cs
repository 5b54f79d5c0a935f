using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>Eggs that are to come to a tank.</summary>
public sealed record ComingEggs(Guid TankId, string Code, DateOnly On, int Eggs);

/// <summary>The dates of tanks as an iCalendar text (RFC 5545): whole days, since a forecast knows no hour.</summary>
public sealed class FeedText(CalendarNow now, Uri portal)
{
    public const string ContentType = "text/calendar; charset=utf-8";

    /// <summary>How often a program should look again; the dates move with the readings of a day.</summary>
    private const string LookAgain = "PT6H";

    public string Write(string name, IReadOnlyList<ComingEggs> coming)
    {
        var calendar = new Calendar { ProductId = "-//Tankside//Hatch calendar//EN", Method = "PUBLISH" };
        calendar.AddProperty("X-WR-CALNAME", OneLine(name));
        calendar.AddProperty("X-PUBLISHED-TTL", LookAgain);
        calendar.Properties.Add(new CalendarProperty("REFRESH-INTERVAL", LookAgain) { Parameters = { new CalendarParameter("VALUE", "DURATION") } });
        foreach (var eggs in coming)
        {
            calendar.Events.Add(Event($"eggs-{eggs.TankId:n}", eggs.Code, $"{eggs.Code}: {eggs.Eggs} eggs come", "The day planned for the delivery.", eggs.On, eggs.On));
        }

        foreach (var tank in now.Tanks)
        {
            Add(calendar, tank, "hatch", tank.Hatch);
            Add(calendar, tank, "swim-up", tank.SwimUp);
            AddDial(calendar, tank.Glance);
        }

        return new CalendarSerializer().SerializeToString(calendar) ?? throw new InvalidOperationException("the calendar came out empty");
    }

    /// <summary>The turns of the dial still to come, each on its day.</summary>
    private void AddDial(Calendar calendar, TankGlance glance)
    {
        var scale = new ScaleWords(glance.Place.Programme.ScreenUnit);
        var where = $"{glance.Place.School.Name}, {glance.Place.Room.Name}. By the plan that is kept; a grown-up turns the dial, and nobody opens a chiller.";
        foreach (var step in (glance.Plan ?? []).Where(s => glance.Fish > 0 && s.On >= now.Time.Today))
        {
            calendar.Events.Add(Event(
                $"dial-{glance.Place.Tank.Id:n}-{step.On:yyyyMMdd}", glance.Code, $"{glance.Code}: set the dial to {scale.Both(step.C)}", where, step.On, step.On));
        }
    }

    private void Add(Calendar calendar, CalendarTank tank, string stage, StageOnCalendar? on)
    {
        if (on is null)
        {
            return;
        }

        // One event a stage, lot and tank: when the forecast moves, the same event moves.
        var uid = $"{stage}-{tank.Glance.Place.Tank.Id:n}-{tank.Lot.DeliveredOn:yyyyMMdd}";
        var where = $"{tank.Glance.Place.School.Name}, {tank.Glance.Place.Room.Name}, lot {tank.Lot.Code}.";
        if (on.SeenOn is { } seen)
        {
            calendar.Events.Add(Event(uid, tank.Code, $"{tank.Code}: {stage}, half seen", where, seen, seen));
            return;
        }

        var forecast = on.Forecast;
        var words = string.Join(
            "\n",
            new[]
            {
                where,
                $"Half of the fish between these days, 8 times in 10; likeliest {now.Time.Day(forecast.Mid)}, nearly surely {now.Time.Stretch(forecast.Low95, forecast.High95)}.",
                CalendarWords.Trouble(on, now.Time) is { } trouble ? $"{trouble}." : null,
            }.OfType<string>());
        calendar.Events.Add(Event(uid, tank.Code, $"{tank.Code}: {stage} expected", words, forecast.Low80, forecast.High80));
    }

    /// <summary>Without the signs that begin a line in some reader's eyes, or that RFC 5545 has no place for (3.1): the library writes them as they are.</summary>
    private static string OneLine(string text) => text.Any(IsBreak) ? string.Concat(text.Select(c => IsBreak(c) ? ' ' : c)) : text;

    private static bool IsBreak(char c) => char.IsControl(c) || c is '\u2028' or '\u2029';

    private CalendarEvent Event(string uid, string tank, string title, string words, DateOnly first, DateOnly last) => new()
    {
        Uid = uid, // holds the tank's id, which is no other's anywhere (RFC 7986, 5.3)
        DtStamp = new CalDateTime(now.At, CalDateTime.UtcTzId),
        Summary = OneLine(title),
        Description = string.Join('\n', words.Split('\n').Select(OneLine)),
        Url = new Uri(portal, $"tanks/{Uri.EscapeDataString(tank)}"),
        // The end of whole days is the day after the last (RFC 5545, 3.6.1).
        Start = new CalDateTime(first),
        End = new CalDateTime(last.AddDays(1)),
        Transparency = TransparencyType.Transparent,
    };
}
