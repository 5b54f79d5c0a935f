using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>An act with the name of who did it.</summary>
public sealed record ToldAct(DateTime At, BookingDeed Deed, string? By, string? Note);

/// <summary>What was done about a booking, the newest first. The page has looked before whether the booking may be seen.</summary>
public sealed class BookingHistory(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<IReadOnlyList<ToldAct>> OfAsync(Guid bookingId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from act in db.BookingActs.AsNoTracking()
            join person in db.Users on act.By equals person.Id into people
            from person in people.DefaultIfEmpty()
            where act.BookingId == bookingId
            orderby act.At descending, act.Id descending
            select new ToldAct(act.At, act.Deed, person == null ? null : person.Name, act.Note)).ToListAsync(cancel);
    }
}
