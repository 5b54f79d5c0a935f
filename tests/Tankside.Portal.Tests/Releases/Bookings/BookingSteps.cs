using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases.Bookings;

/// <summary>Bookings as people ask for and settle them.</summary>
internal static class BookingSteps
{
    public static readonly DateOnly Day = new(2027, 2, 10);

    /// <summary>A request for one choice, sent by whoever the client is; gives its id.</summary>
    public static async Task<Guid> AskAsync(this HttpClient client, Tank tank, ReleaseSite site, params (string Field, string Value)[] more)
    {
        var id = Guid.NewGuid();
        await client.SendAsync("/releases/bookings/ask", Wish(id, tank, site, more), "ask");
        return id;
    }

    public static Dictionary<string, string> Wish(Guid id, Tank tank, ReleaseSite site, params (string Field, string Value)[] more) => LedgerForms.Fields(
    [
        ("Id", id.ToString()), ("Tanks", tank.Id.ToString()), ("Visitors", "28"), ("Buses", "1"),
        ("First.Site", site.Id.ToString()), ("First.On", "2027-02-10"), ("First.Part", nameof(DayPart.Morning)), .. more,
    ]);

    public static Dictionary<string, string> Settle(ReleaseSite site, Permit permit, params (string Field, string Value)[] more) => LedgerForms.Fields(
        [("Site", site.Id.ToString()), ("Permit", permit.Id.ToString()), ("On", "2027-02-10"), ("Part", nameof(DayPart.Morning)), .. more]);

    /// <summary>A settled booking as a row, for tests that begin after it.</summary>
    public static ReleaseBooking Settled(TestProgramme programme, int tank = 0, Action<ReleaseBooking>? change = null)
    {
        var booking = new ReleaseBooking
        {
            Id = Guid.NewGuid(),
            SeasonId = programme.Season.Id,
            SchoolId = programme.Schools[tank].Id,
            TankIds = [programme.Tanks[tank].Id],
            Visitors = 28,
            Buses = 1,
            State = BookingState.Settled,
            SiteId = programme.Site.Id,
            On = DateOnly.FromDateTime(TestWorld.Now),
            Part = DayPart.Morning,
            PermitId = programme.Permit.Id,
            AskedAt = TestWorld.Now.AddDays(-7),
            AskedBy = programme.People[Hatchery.People.Role.Teacher].Id,
        };
        change?.Invoke(booking);
        return booking;
    }
}
