using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Permits;
using Tankside.Storage;

namespace Tankside.Portal.Releases.OnTheDay;

/// <summary>A tank on the day: how its counting stands, and its release once it is entered.</summary>
public sealed record DayTank(BookedTank Booked, IReadOnlyList<TallyCount> Counts, TallyState Tally, Release? Released)
{
    public string Code => Booked.Tank.Code;

    /// <summary>The turn and seat of the next count: a turn that is complete may be counted again while nothing is released.</summary>
    public (int Turn, int Seat) Next => Tally is TallyState.Waits waits ? (waits.Turn, waits.Seat) : (Counts.Max(c => c.Turn) + 1, 1);
}

/// <summary>The sheet of a settled booking.</summary>
public sealed record DaySheet(BookingsAtHand Hand, BookingSeen Seen, Slot Slot, ReleaseSite Site, PermitUse? Permit, IReadOnlyList<DayTank> Tanks)
{
    public DayTank? Find(string? code) => Tanks.FirstOrDefault(t => t.Code == code);
}

/// <summary>Loads the sheet of a day.</summary>
public sealed class DaySheets(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null when there is no such booking for this person, or none that is settled.</summary>
    public async Task<DaySheet?> FindAsync(CurrentUser user, Guid bookingId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, user, time, bookingId, cancel);
    }

    internal static async Task<DaySheet?> LoadAsync(HatcheryDb db, CurrentUser user, TimeProvider time, Guid bookingId, CancellationToken cancel)
    {
        var hand = await BookingBoard.LoadAsync(db, user, time, cancel);
        if (hand.Find(bookingId) is not { Booking.Slot: { } slot } seen)
        {
            return null;
        }

        var counts = (await db.TallyCounts.AsNoTracking().Where(c => c.BookingId == bookingId).ToListAsync(cancel)).ToLookup(c => c.TankId);
        var released = (await db.Releases.AsNoTracking().Where(r => r.BookingId == bookingId && r.WithdrawnAt == null).ToListAsync(cancel)).ToLookup(r => r.TankId);
        return new DaySheet(
            hand, seen, slot, hand.Sites[slot.SiteId], hand.Permits.FirstOrDefault(p => p.Permit.Id == seen.Booking.PermitId),
            [.. seen.Tanks.Select(t => new DayTank(t, [.. counts[t.Tank.Id]], Tally.Of([.. counts[t.Tank.Id]]), released[t.Tank.Id].FirstOrDefault()))]);
    }
}
