using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

public class SeasonPageTests
{
    [Theory, BothDatabases]
    public async Task The_season_tells_its_days_schools_and_who_holds_which_lot(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var page = await (await host.ClientAs(Role.ProgrammeLead, world.One)).ReadAsync("/season");

        Assert.Contains(" allotted, 300 received</dd>", page, StringComparison.Ordinal);
        Assert.Contains("Season 2026-27 runs from 1 Sep 2026 to 31 Jul 2027.", page, StringComparison.Ordinal);
        Assert.Contains("2 schools, 2 tanks, 1 lot", page, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School", page, StringComparison.Ordinal);
        Assert.Contains("<a href=\"/ledger/A002\">A002</a>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("B001", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_closure_is_added_once_for_one_school_or_all_and_removed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var school = world.One.Schools[1];

        var wrong = await lead.RefusedAsync("/season/closures", Fields(("FirstDay", "2027-02-20"), ("LastDay", "2027-02-15"), ("Reason", "")), "closure");
        Assert.Contains("The last day is before the first.", wrong, StringComparison.Ordinal);
        Assert.Contains("Say why", wrong, StringComparison.Ordinal);
        Assert.Contains("value=\"2027-02-20\"", wrong, StringComparison.Ordinal);

        var one = Fields(("FirstDay", "2027-02-15"), ("Reason", "Power works"), ("School", school.Id.ToString()));
        Assert.Contains("Added: Power works, Mon 15 Feb 2027.", await lead.SendAsync("/season/closures", one, "closure"), StringComparison.Ordinal);
        Assert.Contains("is in the list already", await lead.SendAsync("/season/closures", one, "closure"), StringComparison.Ordinal);
        await lead.SendAsync("/season/closures", Fields(("FirstDay", "2027-03-22"), ("LastDay", "2027-03-26"), ("Reason", "Spring break")), "closure");
        Closure closure;
        await using (var db = host.OpenDb())
        {
            Assert.Equal([(Guid?)school.Id, null], await db.Closures.OrderBy(c => c.FirstDay).Select(c => c.SchoolId).ToListAsync());
            closure = await db.Closures.SingleAsync(c => c.SchoolId == school.Id);
        }

        var page = await lead.SendAsync("/season/closures", new() { ["Removed"] = closure.Id.ToString() }, "remove");
        Assert.Contains("These are school days again.", page, StringComparison.Ordinal);
        await using var after = host.OpenDb();
        Assert.Equal("Spring break", Assert.Single(await after.Closures.ToListAsync()).Reason);
    }

    [Theory, BothDatabases]
    public async Task The_closures_of_another_programme_are_out_of_reach(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var theirs = new Closure { Id = Guid.NewGuid(), ProgrammeId = world.Two.Programme.Id, FirstDay = new(2027, 2, 15), LastDay = new(2027, 2, 15), Reason = "Theirs" };
        var ours = new Closure { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, FirstDay = new(2027, 2, 16), LastDay = new(2027, 2, 16), Reason = "Ours" };
        await host.SeedAsync(db => db.AddRange(theirs, ours));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        await lead.SendAsync("/season/closures", new() { ["Removed"] = theirs.Id.ToString() }, "remove");
        var refused = await lead.RefusedAsync(
            "/season/closures", Fields(("FirstDay", "2027-02-15"), ("Reason", "Sneaky"), ("School", world.Two.Schools[0].Id.ToString())), "closure");

        Assert.Contains("Choose a school, or all of them.", refused, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Closures.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Only_the_lead_opens_the_season(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        foreach (var address in new[] { "/season", "/season/closures", "/season/closures/calendar" })
        {
            Assert.Equal(HttpStatusCode.Redirect, (await coordinator.GetAsync(address)).StatusCode);
        }
    }
}
