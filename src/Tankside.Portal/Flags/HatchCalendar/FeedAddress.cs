using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.HatchCalendar;

/// <summary>Where a calendar program reads a feed. The secret in the address is all it needs.</summary>
public static class FeedAddress
{
    public static void MapCalendarFeeds(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/calendar/feeds/{secret}.ics", GetAsync).AllowAnonymous().ExcludeFromDescription();

    private static async Task<Results<FileContentHttpResult, NotFound>> GetAsync(
        string secret, HttpContext context, Replica replica, CalendarTanks calendar, TanksideOptions options, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        if (await Feeds.OpenAsync(db, secret, cancel) is not var (feed, tanks))
        {
            return TypedResults.NotFound();
        }

        var now = await calendar.LoadAsync(db, tanks, feed.ProgrammeId, cancel);
        var text = new FeedText(now, options.PublicUrl).Write($"Hatch calendar, {await NameAsync(db, feed, now, cancel)}", await ComingAsync(db, tanks, now, cancel));
        context.Response.Headers.CacheControl = "private, max-age=900";
        return TypedResults.Bytes(Encoding.UTF8.GetBytes(text), FeedText.ContentType);
    }

    private static async Task<string> NameAsync(HatcheryDb db, CalendarFeed feed, CalendarNow now, CancellationToken cancel) =>
        feed.TankId is { } tank ? $"tank {await db.Tanks.Where(t => t.Id == tank).Select(t => t.Code).SingleAsync(cancel)}"
        : feed.SchoolId is { } school ? await db.Schools.Where(s => s.Id == school).Select(s => s.Name).SingleAsync(cancel)
        : now.Programme;

    /// <summary>Deliveries that have a day and no receipt yet.</summary>
    private static async Task<IReadOnlyList<ComingEggs>> ComingAsync(HatcheryDb db, IQueryable<Tank> tanks, CalendarNow now, CancellationToken cancel)
    {
        var rows = await (
            from tank in tanks
            join allotment in db.Allotments on tank.Id equals allotment.TankId
            where allotment.DeliveryOn != null && !db.Receipts.Any(r => r.TankId == tank.Id && r.LotId == allotment.LotId)
            select new { tank.Id, tank.Code, allotment.DeliveryOn, allotment.Eggs }).ToListAsync(cancel);
        return [.. rows.Where(r => r.DeliveryOn >= now.Time.Today).OrderBy(r => r.DeliveryOn).ThenBy(r => r.Code, StringComparer.Ordinal)
            .Select(r => new ComingEggs(r.Id, r.Code, r.DeliveryOn!.Value, r.Eggs))];
    }
}
