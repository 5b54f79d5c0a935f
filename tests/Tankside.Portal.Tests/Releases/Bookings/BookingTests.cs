using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.Bookings.BookingSteps;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases.Bookings;

/// <summary>From a school's choices to a day that is settled, agreed, moved or given up.</summary>
public class BookingTests
{
    [Theory, BothDatabases]
    public async Task A_school_asks_the_coordinator_settles_the_agency_agrees_and_a_move_asks_the_agency_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var (teacher, coordinator, agency) = (await host.ClientAs(Role.Teacher, one), await host.ClientAs(Role.Coordinator, one), await host.ClientAs(Role.AgencyContact, one));
        var id = await teacher.AskAsync(
            one.Tanks[0], one.Site, ("Second.Site", one.Site.Id.ToString()), ("Second.On", "2027-02-11"), ("Second.Part", nameof(DayPart.Afternoon)), ("Needs", "One wheelchair"));
        Assert.Contains("1 request waits", await teacher.ReadAsync("/releases/bookings"), StringComparison.Ordinal);

        var helper = one.People[Role.KitHand];
        var said = await coordinator.SendAsync($"/releases/bookings/{id}/settle?choice=2", new() { ["Input.Helpers"] = helper.Id.ToString() }, "settle");
        Assert.Contains("Settled: Birch Lane School with A001 at Footbridge, Thu 11 Feb 2027, afternoon.", said, StringComparison.Ordinal);
        Assert.Contains(helper.Name, said, StringComparison.Ordinal);
        var seen = await agency.ReadAsync($"/releases/bookings/{id}");
        Assert.DoesNotContain(helper.Name, seen, StringComparison.Ordinal);
        Assert.DoesNotContain("wheelchair", seen, StringComparison.Ordinal);
        await agency.SendAsync($"/releases/bookings/{id}", Fields(("Agency", "yes")), "agency");
        Assert.Contains("agency agrees", await teacher.ReadAsync("/releases/bookings"), StringComparison.Ordinal);

        await coordinator.SendAsync($"/releases/bookings/{id}/settle", Settle(one.Site, one.Permit), "settle");
        Assert.Contains("agency not heard yet", await teacher.ReadAsync("/releases/bookings"), StringComparison.Ordinal);
        Assert.Contains("Type who at the agency said so.", await coordinator.RefusedAsync($"/releases/bookings/{id}", Fields(("Agency", "no")), "agency"), StringComparison.Ordinal);
        var history = await coordinator.SendAsync($"/releases/bookings/{id}", Fields(("Agency", "no"), ("Who", "District biologist"), ("Note", "high water")), "agency");
        Assert.Contains("District biologist: high water", history, StringComparison.Ordinal);
        Assert.Contains("Settled, Coordinator A: Footbridge, Thu 11 Feb 2027, afternoon", history, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Refusals => new()
    {
        { "water", "Fish may" }, { "species", "other fish are in these tanks" }, { "season", "covers 1 Feb 2027 to 30 Jun 2027" },
        { "hold", "be held 5 days from delivery" }, { "past", "This day is over." }, { "used", "is used up" }, { "stranger", "not in the programme any more" },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task A_day_that_the_permit_does_not_cover_is_not_settled(string what, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db =>
        {
            var permit = db.Permits.Single(p => p.Id == one.Permit.Id);
            permit.HoldDays = what == "hold" ? 5 : null;
            permit.Species = what == "species" ? Science.Eggs.Species.CohoSalmon : permit.Species;
            permit.Water = what == "water" ? "Mill Pond" : permit.Water;
        });
        var client = await host.ClientAs(Role.Coordinator, one);
        if (what == "used")
        {
            await client.SendAsync("/releases", Release(one.Tanks[1], one.Site, one.Permit, "200"), "release");
        }

        var id = await client.AskAsync(one.Tanks[0], one.Site);
        var form = what switch
        {
            "season" => Settle(one.Site, one.Permit, ("On", "2027-07-10")),
            "past" => Settle(one.Site, one.Permit, ("On", "2027-02-02")),
            "stranger" => Settle(one.Site, one.Permit, ("Helpers", $"{world.Two.People[Role.Teacher].Id}")),
            _ => Settle(one.Site, one.Permit),
        };

        var page = await client.RefusedAsync($"/releases/bookings/{id}/settle", form, "settle");

        Assert.Contains(what == "water" ? "is for Mill Pond, and Footbridge is on Reed Creek" : told, page, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(BookingState.Asked, (await db.ReleaseBookings.SingleAsync()).State);
        Assert.Empty(await db.BookingHolds.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task Of_bookings_settled_at_the_same_moment_only_as_many_stand_as_the_site_takes(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => db.ReleaseSites.Single(s => s.Id == one.Site.Id).MostVisitors = 60);
        var client = await host.ClientAs(Role.Coordinator, one);
        var rows = Enumerable.Range(0, 4).Select(i => BookingSteps.Settled(one, i % 2, b =>
        {
            (b.State, b.SiteId, b.On, b.Part, b.PermitId, b.Visitors) = (BookingState.Asked, null, null, null, null, 25);
            b.TankIds = [];
        })).ToList();
        await host.SeedAsync(db => db.AddRange(rows));

        await Task.WhenAll(rows.Select(b => client.PostFormAsync($"/releases/bookings/{b.Id}/settle", Settle(one.Site, one.Permit), "settle")));

        await using var db = host.OpenDb();
        Assert.Equal(2, await db.ReleaseBookings.CountAsync(b => b.State == BookingState.Settled));
        var full = await client.RefusedAsync($"/releases/bookings/{(await db.ReleaseBookings.FirstAsync(b => b.State == BookingState.Asked)).Id}/settle", Settle(one.Site, one.Permit), "settle");
        Assert.Contains("Footbridge has room for 60 people at once. Then also:", full, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_helper_or_a_room_is_never_at_two_places_at_the_same_moment(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var landing = new Hatchery.Releases.ReleaseSite { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = "Landing", Water = one.Site.Water };
        await host.SeedAsync(db => db.Add(landing));
        var client = await host.ClientAs(Role.Coordinator, one);
        var (first, second, third) = (await client.AskAsync(one.Tanks[0], one.Site), await client.AskAsync(one.Tanks[1], landing), await client.AskAsync(one.Tanks[0], landing));
        var helper = ("Helpers", $"{one.People[Role.KitHand].Id}");

        await Task.WhenAll(
            client.PostFormAsync($"/releases/bookings/{first}/settle", Settle(one.Site, one.Permit, helper), "settle"),
            client.PostFormAsync($"/releases/bookings/{second}/settle", Settle(landing, one.Permit, helper), "settle"));

        await using var db = host.OpenDb();
        var stands = await db.ReleaseBookings.SingleAsync(b => b.State == BookingState.Settled);
        Assert.Single(await db.BookingHolds.Where(h => h.Kind == HeldKind.Helper).ToListAsync());
        var (other, at) = stands.Id == first ? (second, landing) : (first, one.Site);
        Assert.Contains("helps at another release then.", await client.RefusedAsync($"/releases/bookings/{other}/settle", Settle(at, one.Permit, helper), "settle"), StringComparison.Ordinal);
        await client.SendAsync($"/releases/bookings/{other}/settle", Settle(at, one.Permit), "settle");
        var afternoon = Settle(landing, one.Permit, ("Part", nameof(DayPart.Afternoon)), helper);
        Assert.Contains("Room 1 is at another release then.", await client.RefusedAsync($"/releases/bookings/{third}/settle", Settle(one.Site, one.Permit), "settle"), StringComparison.Ordinal);
        await client.SendAsync($"/releases/bookings/{third}/settle", afternoon, "settle");
        Assert.Contains("Nothing clashes.", await client.ReadAsync("/releases/bookings/clashes"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_clashes_is_seen_by_day_and_place_and_a_cancelled_day_is_free_and_can_be_asked_for_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var (teacher, coordinator) = (await host.ClientAs(Role.Teacher, one), await host.ClientAs(Role.Coordinator, one));
        var (mine, theirs) = (await teacher.AskAsync(one.Tanks[0], one.Site), await coordinator.AskAsync(one.Tanks[1], one.Site));
        await coordinator.SendAsync($"/releases/bookings/{mine}/settle", [], "settle");

        var clashes = await coordinator.ReadAsync("/releases/bookings/clashes");
        Assert.Contains("1 part of a day is wanted more than once.", clashes, StringComparison.Ordinal);
        Assert.Contains("takes one school at a time, because nobody has said how many have room there. Then also: Birch Lane School (A001).", clashes, StringComparison.Ordinal);
        await coordinator.RefusedAsync($"/releases/bookings/{theirs}/settle", [], "settle");

        Assert.Contains("Say why", await teacher.RefusedAsync($"/releases/bookings/{mine}", [], "cancel"), StringComparison.Ordinal);
        await teacher.SendAsync($"/releases/bookings/{mine}", Fields(("Because", "high water")), "cancel");
        await coordinator.SendAsync($"/releases/bookings/{theirs}/settle", [], "settle");
        await teacher.SendAsync($"/releases/bookings/ask?of={mine}", Fields(("First.On", "2027-02-17")), "ask");
        var history = await teacher.ReadAsync($"/releases/bookings/{mine}");
        Assert.Contains("Cancelled, Teacher A: high water", history, StringComparison.Ordinal);
        Assert.Contains("Asked for again, Teacher A: 1. Footbridge, Wed 17 Feb 2027, morning", history, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_booking_exists_for_its_own_school_and_programme_alone(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var theirs = BookingSteps.Settled(one, tank: 1);
        await host.SeedAsync(db => db.Add(theirs));
        var (teacher, stranger) = (await host.ClientAs(Role.Teacher, one), await host.ClientAs(Role.ProgrammeLead, world.Two));

        foreach (var client in new[] { teacher, stranger })
        {
            Assert.DoesNotContain("Mill Pond School (", await client.ReadAsync("/releases/bookings"), StringComparison.Ordinal);
            Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync($"/releases/bookings/{theirs.Id}")).StatusCode);
        }

        var wish = Wish(Guid.NewGuid(), one.Tanks[1], one.Site);
        Assert.Contains("Choose the tanks whose fish go", await teacher.RefusedAsync("/releases/bookings/ask", wish, "ask"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await teacher.GetAsync($"/releases/bookings/{theirs.Id}/settle")).StatusCode);
        await using var db = host.OpenDb();
        Assert.Single(await db.ReleaseBookings.ToListAsync());
    }
}
