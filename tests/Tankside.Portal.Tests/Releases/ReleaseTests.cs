using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

public class ReleaseTests
{
    [Theory, BothDatabases]
    public async Task A_release_is_entered_with_its_ledger_line_and_empties_the_tank(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var teacher = await host.ClientAs(Role.Teacher, one);
        var form = Release(one.Tanks[0], one.Site, one.Permit, "120", ("TankTemperature", "52"), ("StreamTemperature", "41"), ("EmptiesTank", "true"), ("Id", Guid.NewGuid().ToString()));

        var page = await teacher.SendAsync("/releases", form, "release");
        Assert.Contains("120 fish of A001 released at Footbridge. Permit P-1 has 80 of 200 left. A001 is closed; 28 are unaccounted for.", page, StringComparison.Ordinal);
        Assert.Contains("more than 5 °F apart", page, StringComparison.Ordinal);
        Assert.Contains("it stands in the list once", await teacher.SendAsync("/releases", form, "release"), StringComparison.Ordinal);

        await using var db = host.OpenDb();
        var release = await db.Releases.SingleAsync();
        Assert.Equal((11.11, 5), (release.TankC, release.StreamC));
        Assert.Equal((120, release.Id), await db.Ledger.Where(e => e.Kind == LedgerKind.Released).Select(e => new ValueTuple<int, Guid?>(e.Count, e.ReleaseId)).SingleAsync());
        var balance = await host.BalanceAsync(one.Tanks[0]);
        Assert.Equal((120, 0, 28), (balance.Released, balance.StillInTank, balance.Unaccounted));
    }

    public static TheoryData<string, string> Refusals => new()
    {
        { "over", "has 200 of 200 fish left" },
        { "season", "covers 1 Feb 2027 to 30 Jun 2027" },
        { "water", "Fish may go only into the permit’s own water" },
        { "species", "is for coho salmon, and A001 holds rainbow trout" },
        { "future", "This day is still to come." },
        { "celsius", "is not likely here" },
        { "nothing", "Type how many fish were counted" },
        { "closed", "A001 is closed." },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task A_release_that_the_permit_does_not_cover_is_refused_and_nothing_is_stored(string what, string said)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var one = world.One;
        var pond = new ReleaseSite { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = "Pond end", Water = "Mill Pond" };
        var coho = new Permit
        {
            Id = Guid.NewGuid(),
            ProgrammeId = one.Programme.Id,
            Number = "P-2",
            Species = Species.CohoSalmon,
            Water = one.Site.Water,
            Fish = 100,
            From = one.Permit.From,
            To = one.Permit.To,
        };
        await host.SeedAsync(db =>
        {
            db.AddRange(pond, coho);
            if (what == "closed")
            {
                db.Tanks.Single(t => t.Id == one.Tanks[0].Id).ClosedAt = host.Now;
            }
        });
        var client = await host.ClientAs(Role.Coordinator, one);
        Tank tank = one.Tanks[0];
        var form = what switch
        {
            "over" => Release(tank, one.Site, one.Permit, "201"),
            "season" => Release(tank, one.Site, one.Permit, "20", ("Day", "2027-01-31")),
            "water" => Release(tank, pond, one.Permit, "20"),
            "species" => Release(tank, one.Site, coho, "20"),
            "future" => Release(tank, one.Site, one.Permit, "20", ("Day", "2027-02-04")),
            "celsius" => Release(tank, one.Site, one.Permit, "20", ("StreamTemperature", "50"), ("Unit", "C")),
            "nothing" => Release(tank, one.Site, one.Permit, "0"),
            _ => Release(tank, one.Site, one.Permit, "20"),
        };

        var page = await client.RefusedAsync("/releases", form, "release");

        Assert.Contains(said, page, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.Releases.ToListAsync());
        Assert.False(await db.Ledger.AnyAsync(e => e.Kind == LedgerKind.Released));
    }

    [Theory, BothDatabases]
    public async Task Releases_at_the_same_moment_cannot_pass_the_permit_together(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);

        var answers = await Task.WhenAll(Enumerable.Range(0, 5).Select(i => client.PostFormAsync(
            "/releases", Release(one.Tanks[i % 2], one.Site, one.Permit, "50", ("Id", Guid.NewGuid().ToString())), "release")));

        await using var db = host.OpenDb();
        Assert.Equal(200, await db.Releases.SumAsync(r => r.Fish));
        Assert.Equal(200, await db.Ledger.Where(e => e.Kind == LedgerKind.Released).SumAsync(e => e.Count));
        var refused = Assert.Single(answers, a => a.StatusCode == HttpStatusCode.OK);
        Assert.Contains("is used up: 200 of 200 fish are released", WebUtility.HtmlDecode(await refused.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_release_taken_back_stays_to_be_read_and_counts_nowhere(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        var id = Guid.NewGuid();
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "200", ("EmptiesTank", "true"), ("Id", id.ToString())), "release");

        var page = await client.SendAsync("/releases", new() { ["Withdrawn"] = id.ToString() }, "withdraw");
        Assert.Contains("Taken back: 200 fish of A001.", page, StringComparison.Ordinal);
        Assert.Contains("No fish are released yet.", page, StringComparison.Ordinal);
        Assert.Contains("taken back on 3 Feb 2027 by Coordinator A", page, StringComparison.Ordinal);
        Assert.Contains("A001 is open again.", page, StringComparison.Ordinal);
        var balance = await host.BalanceAsync(one.Tanks[0]);
        Assert.Equal((0, 148), (balance.Released, balance.StillInTank));

        var csv = await client.GetStringAsync("/totals/2026-27.csv");
        Assert.DoesNotContain("Footbridge", csv, StringComparison.Ordinal);
        Assert.DoesNotContain("P-1", csv, StringComparison.Ordinal);
        var again = await client.SendAsync("/releases", Release(one.Tanks[1], one.Site, one.Permit, "200"), "release");
        Assert.Contains("Permit P-1 has 0 of 200 left.", again, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_report_that_nobody_says_was_sent_is_flagged_after_its_day_and_the_word_clears_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Teacher, one);
        var id = Guid.NewGuid();
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "140", ("EmptiesTank", "true"), ("Id", id.ToString())), "release");
        host.Time.Advance(TimeSpan.FromDays(10));
        await host.SweepAsync();
        Assert.Equal(0, await LateAsync(host));

        host.Time.Advance(TimeSpan.FromDays(1));
        await host.SweepAsync();
        Assert.Equal(1, await LateAsync(host));
        var said = await client.SendAsync("/releases", new() { ["Reported"] = id.ToString() }, "report");
        Assert.Contains("Kept: the report of 140 fish of A001 is sent.", said, StringComparison.Ordinal);
        await host.SweepAsync();
        Assert.Equal(0, await LateAsync(host));

        await client.SendAsync("/releases", new() { ["Unreported"] = id.ToString() }, "unreport");
        await host.SweepAsync();
        Assert.Equal(1, await LateAsync(host));
    }

    private static async Task<int> LateAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return await db.Flags.CountAsync(f => f.Kind == FlagKind.ReportLate && f.State == FlagState.Open);
    }

    [Theory, BothDatabases]
    public async Task Taking_back_twice_at_once_undoes_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var client = await host.ClientAs(Role.Coordinator, one);
        var id = Guid.NewGuid();
        await client.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "20", ("Id", id.ToString())), "release");

        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => client.PostFormAsync("/releases", new Dictionary<string, string> { ["Withdrawn"] = id.ToString() }, "withdraw")));

        await using var db = host.OpenDb();
        Assert.Single(await db.Ledger.Where(e => e.ReleaseId == id && e.CorrectsId != null).ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_teacher_neither_sees_nor_takes_back_what_another_school_released(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var id = Guid.NewGuid();
        var coordinator = await host.ClientAs(Role.Coordinator, one);
        await coordinator.SendAsync("/releases", Release(one.Tanks[1], one.Site, one.Permit, "20", ("Id", id.ToString())), "release");
        var teacher = await host.ClientAs(Role.Teacher, one);
        await teacher.SendAsync("/releases", Release(one.Tanks[0], one.Site, one.Permit, "10"), "release");

        var page = await teacher.SendAsync("/releases", new() { ["Withdrawn"] = id.ToString() }, "withdraw");

        Assert.Contains("There is no such release among those you may change.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Mill Pond School", page, StringComparison.Ordinal);
        Assert.Contains("170", page, StringComparison.Ordinal); // The permit is everybody's: what is left of it is told to all.
        var other = await teacher.RefusedAsync("/releases", Release(one.Tanks[1], one.Site, one.Permit, "10"), "release");
        Assert.Contains("Choose the tank that the fish came from.", other, StringComparison.Ordinal);
        Assert.Equal(20, (await host.BalanceAsync(one.Tanks[1])).Released);
    }

    [Theory, BothDatabases]
    public async Task Sites_and_permits_are_added_once_by_coordinators_and_not_by_teachers(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        await client.SendAsync("/releases/sites", Fields(("Name", "  Pond   end "), ("Water", "Mill Pond")), "site");
        var same = await client.RefusedAsync("/releases/sites", Fields(("Name", "Pond end"), ("Water", "Mill Pond")), "site");
        Assert.Contains("There is a site “Pond end” already.", same, StringComparison.Ordinal);
        var permit = Fields(("Number", "P-9"), ("Species", "CohoSalmon"), ("Water", "Mill Pond"), ("Fish", "1,500"), ("From", "2027-05-01"), ("To", "2027-04-01"));
        Assert.Contains("The last day is before the first.", await client.RefusedAsync("/releases/permits", permit, "permit"), StringComparison.Ordinal);
        permit["Input.To"] = "2027-06-30";
        Assert.Contains("1,500 coho salmon into Mill Pond", await client.SendAsync("/releases/permits", permit, "permit"), StringComparison.Ordinal);
        Assert.Contains("is in the list already", await client.RefusedAsync("/releases/permits", permit, "permit"), StringComparison.Ordinal);

        var teacher = await host.ClientAs(Role.Teacher, world.One);
        Assert.Equal(HttpStatusCode.Redirect, (await teacher.GetAsync("/releases/permits")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await teacher.GetAsync("/releases/sites")).StatusCode);
    }
}
