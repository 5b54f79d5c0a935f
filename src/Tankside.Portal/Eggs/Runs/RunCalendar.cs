using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Tankside.Hatchery.Eggs.Runs;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>A driver's round as an iCalendar text (RFC 5545): loading, every visit, home. No person is named in it.</summary>
internal static class RunCalendar
{
    public const string ContentType = "text/calendar; charset=utf-8";

    public static string Write(RunView view, RunDriver driver, Uri portal)
    {
        var calendar = new Calendar { ProductId = "-//Tankside//Delivery run//EN", Method = "PUBLISH" };
        calendar.AddProperty("X-WR-CALNAME", $"Eggs {view.Run.Name}, driver {driver.Number}");
        var depot = view.Places.Single(p => p.Id == driver.DepotId);
        if (driver.Leaves is { } leaves)
        {
            Add($"leave-{driver.Id:n}", $"Leave {depot.Name} with the eggs", leaves, leaves.AddMinutes(1), "Count the packs and tick them as loaded. Cooler shut, no standing melt water.");
        }

        foreach (var stop in view.RoundOf(driver).Where(s => s.Stop.Begins is not null))
        {
            Add(
                $"stop-{stop.Stop.Id:n}",
                $"{stop.Stop.Place}. {(stop.Stop.ToHolding ? view.Holding?.Name ?? "Holding tank" : stop.Name)}: {RunWords.Eggs(stop.Stop.Eggs)} for {stop.Tank.Code}",
                stop.Stop.Begins!.Value,
                stop.Stop.Ends!.Value,
                $"Lot {stop.Lot.Code}, {(stop.Stop.ToHolding ? "to the holding tank" : stop.Stop.Visit.Word())}.");
        }

        return new CalendarSerializer().SerializeToString(calendar) ?? throw new InvalidOperationException("the calendar came out empty");

        void Add(string uid, string title, TimeOnly from, TimeOnly until, string words) => calendar.Events.Add(new CalendarEvent
        {
            Uid = uid, // one event a stop: planned again, the same event moves
            DtStamp = new CalDateTime(view.Now, CalDateTime.UtcTzId),
            Summary = title,
            Description = words,
            Url = new Uri(portal, $"run/{driver.Code}"),
            Start = new CalDateTime(view.Clock.Utc(view.Run.On, from), CalDateTime.UtcTzId),
            End = new CalDateTime(view.Clock.Utc(view.Run.On, until), CalDateTime.UtcTzId),
        });
    }
}
