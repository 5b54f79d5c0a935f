using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

/// <summary>What is known of sites and permits changes; what fish were let go under does not slip away.</summary>
public class PermitEditTests
{
    [Theory, BothDatabases]
    public async Task A_site_keeps_its_position_room_way_and_hazards_and_a_slip_in_the_position_is_asked_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => (db.Schools.Single(s => s.Id == one.Schools[0].Id).Latitude, db.Schools.Single(s => s.Id == one.Schools[0].Id).Longitude) = (43.7, -113.7));
        var client = await host.ClientAs(Role.Coordinator, one);
        var address = $"/releases/sites/{one.Site.Id}";

        Assert.Contains("A position has two numbers.", await client.RefusedAsync(address, Fields(("Latitude", "43.72")), "site"), StringComparison.Ordinal);
        Assert.Contains("is not a number", await client.RefusedAsync(address, Fields(("Latitude", "43.7 N"), ("Longitude", "-113.7")), "site"), StringComparison.Ordinal);
        Assert.Contains("Look at the signs", await client.RefusedAsync(address, Fields(("Latitude", "43.72"), ("Longitude", "113.71")), "site"), StringComparison.Ordinal);
        var said = await client.SendAsync(
            address, Fields(("Latitude", "43,72"), ("Longitude", "-113.71"), ("MostVisitors", "60"), ("MostBuses", "2"), ("Access", "Steps"), ("Hazards", "Steep bank")), "site");
        Assert.Contains("Kept: Footbridge, Reed Creek.", said, StringComparison.Ordinal);

        await using var db = host.OpenDb();
        var site = await db.ReleaseSites.SingleAsync(s => s.Id == one.Site.Id);
        Assert.Equal((43.72, -113.71, 60, 2, "Steps", "Steep bank"), (site.Latitude, site.Longitude, site.MostVisitors, site.MostBuses, site.Access, site.Hazards));
    }

    public static TheoryData<string, string, string> Breaking => new()
    {
        { "Fish", "49", "50 fish are released on it already." },
        { "From", "2027-02-04", "Its days have to cover them." },
        { "To", "2027-02-02", "Its days have to cover them." },
        { "Species", "CohoSalmon", "Add another permit for another species." },
        { "Water", "Mill Pond", "Fish were let go on it into Reed Creek." },
        { "HoldDays", "0", "Type 1 to 400 days" },
        { "Responsible", "11111111-1111-1111-1111-111111111111", "is not a coordinator or lead" },
    };

    [Theory]
    [MemberData(nameof(Breaking))]
    public async Task A_change_that_would_leave_a_release_uncovered_is_refused_with_the_reason(string field, string value, string said)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "50"), "release");

        Assert.Contains(said, await client.RefusedAsync($"/releases/permits/{one.Permit.Id}", Fields((field, value)), "permit"), StringComparison.Ordinal);

        await using var db = host.OpenDb();
        var kept = await db.Permits.SingleAsync(p => p.Id == one.Permit.Id);
        Assert.Equal((one.Permit.Fish, one.Permit.From, one.Permit.To, one.Permit.Species, one.Permit.Water, null), (kept.Fish, kept.From, kept.To, kept.Species, kept.Water, kept.HoldDays));
    }

    [Theory, BothDatabases]
    public async Task A_change_that_still_covers_the_releases_is_kept_and_one_over_an_unseen_change_is_not(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "50"), "release");
        var address = $"/releases/permits/{one.Permit.Id}";
        var stale = await client.OpenFormAsync(address, Fields(("Fish", "60")), "permit");

        var said = await client.SendAsync(
            address, Fields(("Fish", "50"), ("Holder", "H. Older"), ("HoldDays", "56"), ("Conditions", "Biologist present"), ("Document", "Binder 2"), ("Responsible", $"{one.People[Role.Coordinator].Id}")), "permit");

        Assert.Contains("Kept: permit P-1, 50 rainbow trout", said, StringComparison.Ordinal);
        Assert.Contains("since you opened this page", await (await stale()).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var kept = await db.Permits.SingleAsync(p => p.Id == one.Permit.Id);
        Assert.Equal((50, "H. Older", 56, "Biologist present", "Binder 2", one.People[Role.Coordinator].Id), (kept.Fish, kept.Holder, kept.HoldDays, kept.Conditions, kept.Document, kept.ResponsibleId));
    }

    [Theory, BothDatabases]
    public async Task Releases_and_a_smaller_permit_at_the_same_moment_never_leave_more_released_than_allowed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);

        await Task.WhenAll(
            client.PostFormAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "120"), "release"),
            client.PostFormAsync($"/releases/permits/{one.Permit.Id}", Fields(("Fish", "100")), "permit"));

        await using var db = host.OpenDb();
        Assert.True(await db.Releases.SumAsync(r => r.Fish) <= (await db.Permits.SingleAsync(p => p.Id == one.Permit.Id)).Fish);
    }

    [Theory, BothDatabases]
    public async Task Another_programmes_sites_and_permits_are_not_found(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        Assert.Equal(System.Net.HttpStatusCode.NotFound, (await client.GetAsync($"/releases/sites/{world.Two.Site.Id}")).StatusCode);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, (await client.GetAsync($"/releases/permits/{world.Two.Permit.Id}")).StatusCode);
    }
}
