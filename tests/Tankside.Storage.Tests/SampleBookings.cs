using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Science.Eggs;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A site and a permit with everything known of them, and a booking from its choices to its tally.</summary>
internal static class SampleBookings
{
    private static readonly DateTime At = SampleRows.At;

    public static (ReleaseBooking Booking, IReadOnlyList<object> Rows) Of(TestProgramme p)
    {
        var teacher = p.People[Role.Teacher].Id;
        var site = new ReleaseSite
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Name = "Lower landing",
            Water = "Reed Creek",
            Latitude = 43.7214,
            Longitude = -113.7003,
            MostVisitors = 60,
            MostBuses = 2,
            Access = "ramp at the north end",
            Hazards = "deep under the bridge",
        };
        var permit = new Permit
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Number = "P-7",
            Species = Species.ChumSalmon,
            Water = "Reed Creek",
            Fish = 900,
            From = new DateOnly(2027, 3, 1),
            To = new DateOnly(2027, 5, 31),
            Holder = "H. Older",
            ResponsibleId = teacher,
            HoldDays = 56,
            Conditions = "biologist present",
            Document = "binder 2",
            NilReportedAt = At.AddDays(90),
            NilReportedBy = teacher,
        };
        var booking = new ReleaseBooking
        {
            Id = Guid.NewGuid(),
            SeasonId = p.Season.Id,
            SchoolId = p.Schools[0].Id,
            TankIds = [p.Tanks[0].Id],
            Visitors = 28,
            Buses = 1,
            OtherHelpers = 3,
            Needs = "one wheelchair",
            State = BookingState.Settled,
            SiteId = site.Id,
            On = new DateOnly(2027, 4, 20),
            Part = DayPart.Afternoon,
            PermitId = permit.Id,
            AgencyAgrees = true,
            AgencyWho = "district biologist",
            AgencyAt = At.AddDays(1),
            Ticked = ["water", "cold"],
            AskedAt = At,
            AskedBy = teacher,
        };
        return (booking,
        [
            site, permit, booking,
            new PermitPaper
            {
                Id = Guid.NewGuid(), PermitId = permit.Id, ReceivedAt = At, SentBy = teacher, Kind = PaperKind.Picture, Note = "first page", Pages = 1,
                Content = [0xFF, 0xD8, 0xFF, 0xD9], RemovedAt = At.AddDays(2), RemovedBy = teacher,
            },
            new BookingChoice { BookingId = booking.Id, Rank = 2, SiteId = site.Id, On = new DateOnly(2027, 4, 20), Part = DayPart.Afternoon },
            new BookingHold
            {
                Id = Guid.NewGuid(), BookingId = booking.Id, On = new DateOnly(2027, 4, 20), Part = DayPart.Afternoon, Kind = HeldKind.Helper,
                HeldId = p.People[Role.KitHand].Id,
            },
            new BookingAct { Id = Guid.NewGuid(), BookingId = booking.Id, At = At, By = teacher, Deed = BookingDeed.AgencyAgreed, Note = "by telephone" },
            new TallyCount
            {
                Id = Guid.NewGuid(), BookingId = booking.Id, TankId = p.Tanks[0].Id, Turn = 2, Seat = 1, Counter = "Teo Acher", Fish = 87, At = At,
                EnteredBy = teacher, StandsAt = At.AddMinutes(5), StandsBy = teacher,
            },
        ]);
    }
}
