using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Storage;

namespace Tankside.Portal.Demo;

/// <summary>
/// Release days: one settled with the agency's word, one that waits for it, one asked for whose first choice is taken already, and one of
/// the demo teacher's own that is weeks away.
/// </summary>
public static class DemoBookings
{
    public static void Add(HatcheryDb db, DemoBasin basin, DemoDice dice, DateTime now)
    {
        var today = basin.Calendar.Clock.Day(now);
        var days = basin.Calendar.SchoolDays(today.AddDays(1), basin.Season.EndsOn.AddDays(-7)).ToList();
        var (heron, gravel, cattail) = (basin.Sites[0], basin.Sites[1], basin.Sites[2]);
        var person = db.Users.Local.ToDictionary(p => p.Email!.Split('@')[0], p => p.Id);

        var settled = Settled(41, heron, days[5], DayPart.Morning);
        (settled.AgencyAgrees, settled.AgencyWho, settled.AgencyAt) = (true, "district fish office", now.AddDays(-2));
        Act(settled, -2, BookingDeed.AgencyAgreed, "district fish office");
        Settled(44, gravel, days[8], DayPart.Afternoon);
        Asked(43, person["coordinator"], (heron, days[5], DayPart.Morning), (gravel, days[6], DayPart.Morning), (heron, days[7], DayPart.Afternoon));
        Asked(1, person["teacher"], (cattail, days[^12], DayPart.Morning), (cattail, days[^11], DayPart.Morning), (cattail, days[^10], DayPart.Afternoon));

        ReleaseBooking Settled(int tank, ReleaseSite site, DateOnly on, DayPart part)
        {
            var booking = Asked(tank, person["coordinator"], (site, on, part), (site, on.AddDays(7), part), (site, on.AddDays(14), part));
            (booking.State, booking.SiteId, booking.On, booking.Part, booking.PermitId) = (BookingState.Settled, site.Id, on, part, basin.ChinookPermit.Id);
            db.Add(new BookingHold { Id = dice.Id(), BookingId = booking.Id, On = on, Part = part, Kind = HeldKind.Room, HeldId = Of(tank).Tank.ClassroomId });
            Act(booking, -4, BookingDeed.Settled, site.Name);
            return booking;
        }

        ReleaseBooking Asked(int tank, Guid by, params (ReleaseSite Site, DateOnly On, DayPart Part)[] choices)
        {
            var booking = new ReleaseBooking
            {
                Id = dice.Id(),
                SeasonId = basin.Season.Id,
                SchoolId = Of(tank).School.Id,
                TankIds = [Of(tank).Tank.Id],
                Visitors = dice.Between(22, 31),
                Buses = 1,
                OtherHelpers = 2,
                AskedAt = now.AddDays(-6),
                AskedBy = by,
            };
            db.Add(booking);
            db.AddRange(choices.Select((c, i) => new BookingChoice { BookingId = booking.Id, Rank = i + 1, SiteId = c.Site.Id, On = c.On, Part = c.Part }));
            Act(booking, -6, BookingDeed.Asked, null);
            return booking;
        }

        DemoTank Of(int number) => basin.Tanks.Single(t => t.Number == number);

        void Act(ReleaseBooking booking, int daysAgo, BookingDeed deed, string? note) => db.Add(new BookingAct
        {
            Id = dice.Id(),
            BookingId = booking.Id,
            At = now.AddDays(daysAgo),
            By = booking.AskedBy,
            Deed = deed,
            Note = note,
        });
    }
}
