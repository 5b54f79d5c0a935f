using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.OnTheDay;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases.Bookings;

/// <summary>The day at the water: ticks, two counters, the number that stands, the signature.</summary>
public class ReleaseDayTests
{
    [Theory, BothDatabases]
    public async Task Two_counts_that_differ_are_settled_by_a_recount_and_that_number_goes_into_the_ledger_signed(DatabaseKind kind)
    {
        var (host, one, sheet) = await BeginAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, one);

        var first = await client.SendAsync(sheet, Count("Ada Adult", "121", 1, 1), "count");
        Assert.Contains("By hand, where there is no network", first, StringComparison.Ordinal);
        Assert.DoesNotContain("121", first.Split("id=\"tally\"")[1], StringComparison.Ordinal);
        Assert.Contains("Ada Adult has counted already.", await client.RefusedAsync(sheet, Count("ada  adult", "120", 1, 2), "count"), StringComparison.Ordinal);
        var differ = await client.SendAsync(sheet, Count("Bo Adult", "118", 1, 2), "count");
        Assert.Contains("The counts differ by 3: Ada Adult 121, Bo Adult 118.", differ, StringComparison.Ordinal);
        await client.SendAsync(sheet, Count("Bo Adult", "120", 2, 1), "count");
        Assert.Contains("counted the same", await client.SendAsync(sheet, Count("Ada Adult", "120", 2, 2), "count"), StringComparison.Ordinal);

        Assert.Contains("Type first and last name", await client.RefusedAsync(sheet, Signed("Ada"), "letgo"), StringComparison.Ordinal);
        var done = await client.SendAsync(sheet, Signed("Ada Adult"), "letgo");
        Assert.Contains("120 fish of A001 released at Footbridge. Permit P-1 has 80 of 200 left.", done, StringComparison.Ordinal);
        Assert.Contains("120 fish are let go, counted and signed for.", done, StringComparison.Ordinal);
        Assert.DoesNotContain("By hand, where there is no network", done, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var release = await db.Releases.SingleAsync();
        Assert.Equal((120, "Ada Adult", host.Now), (release.Fish, release.SignedAs, release.SignedAt));
        Assert.Equal(120, (await host.BalanceAsync(one.Tanks[0])).Released);
    }

    [Theory, BothDatabases]
    public async Task Of_two_counts_the_one_that_somebody_names_stands_and_only_one_of_them(DatabaseKind kind)
    {
        var (host, one, sheet) = await BeginAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, one);
        await client.SendAsync(sheet, Count("Ada Adult", "121", 1, 1), "count");
        await client.SendAsync(sheet, Count("Bo Adult", "118", 1, 2), "count");
        List<TallyCount> counts;
        await using (var db = host.OpenDb())
        {
            counts = await db.TallyCounts.ToListAsync();
        }

        await Task.WhenAll(counts.Select(c => client.PostFormAsync(sheet, new Dictionary<string, string> { ["Input.Stands"] = c.Id.ToString() }, "stands")));

        await using var after = host.OpenDb();
        var stands = await after.TallyCounts.SingleAsync(c => c.StandsAt != null);
        await client.SendAsync(sheet, Signed("Ada Adult"), "letgo");
        Assert.Equal(stands.Fish, await after.Releases.Select(r => r.Fish).SingleAsync());
    }

    [Theory, BothDatabases]
    public async Task A_release_signed_twice_at_the_same_moment_is_entered_once(DatabaseKind kind)
    {
        var (host, one, sheet) = await BeginAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, one);
        await CountBothAsync(client, sheet, "60");

        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => client.PostFormAsync(sheet, Signed("Ada Adult", ("Id", Guid.NewGuid().ToString())), "letgo")));

        await using var db = host.OpenDb();
        Assert.Equal(60, await db.Releases.SumAsync(r => r.Fish));
        var cancelled = await client.RefusedAsync(sheet[..^4], Fields(("Because", "high water")), "cancel");
        Assert.Contains("Fish were let go on this booking, so it cannot be cancelled.", cancelled, StringComparison.Ordinal);
    }

    public static TheoryData<string, string> Refusals => new()
    {
        { "over", "has 200 of 200 fish left. Look at the number." }, { "season", "covers 1 Apr 2027" }, { "water", "is for Mill Pond, and Footbridge" },
        { "species", "A001 holds rainbow trout" }, { "nil", "nothing was released on permit P-1" },
    };

    [Theory]
    [MemberData(nameof(Refusals))]
    public async Task What_the_permit_does_not_cover_is_refused_on_the_sheet_and_nothing_is_entered(string what, string told)
    {
        var (host, one, sheet) = await BeginAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, one);
        await CountBothAsync(client, sheet, what == "over" ? "201" : "20");
        await host.SeedAsync(db =>
        {
            var permit = db.Permits.Single(p => p.Id == one.Permit.Id);
            permit.From = what == "season" ? new DateOnly(2027, 4, 1) : permit.From;
            permit.Water = what == "water" ? "Mill Pond" : permit.Water;
            permit.Species = what == "species" ? Science.Eggs.Species.CohoSalmon : permit.Species;
            permit.NilReportedAt = what == "nil" ? host.Now : null;
        });

        Assert.Contains(told, await client.RefusedAsync(sheet, Signed("Ada Adult"), "letgo"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.Releases.ToListAsync());
    }

    [Fact]
    public async Task Before_two_adults_have_counted_nothing_can_be_signed()
    {
        var (host, one, sheet) = await BeginAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, one);
        Assert.Contains("is entered and signed here", await client.SendAsync(sheet, Count("Ada Adult", "20", 1, 1), "count"), StringComparison.Ordinal);
        var user = new CurrentUser(one.People[Role.Teacher].Id, one.Programme.Id, Role.Teacher, one.Schools[0].Id);
        var why = "";

        var notice = await host.CallAsync<WorkDay, Notice?>(day => day.LetGoAsync(
            user, Guid.Parse(sheet.Split('/')[3]), new DayForm { Id = Guid.NewGuid(), Tank = "A001", SignedAs = "Ada Adult" }, (_, said) => why = said, CancellationToken.None));

        Assert.Null(notice);
        Assert.StartsWith("Two adults have to count A001 first", why, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_sheet_is_there_for_the_own_school_and_keeps_its_ticks(DatabaseKind kind)
    {
        var (host, one, sheet) = await BeginAsync(kind);
        await using var _ = host;
        var (teacher, coordinator) = (await host.ClientAs(Role.Teacher, one), await host.ClientAs(Role.Coordinator, one));
        var theirs = BookingSteps.Settled(one, tank: 1);
        await host.SeedAsync(db => db.Add(theirs));

        Assert.Equal(HttpStatusCode.NotFound, (await teacher.GetAsync($"/releases/bookings/{theirs.Id}/day")).StatusCode);
        Assert.Contains("1 of 10 points are ticked", await teacher.SendAsync(sheet, new() { ["Input.Ticked"] = "footing" }, "checks"), StringComparison.Ordinal);
        Assert.Matches("value=\"footing\" checked", await coordinator.ReadAsync(sheet));
        Assert.Contains("/releases/tempering?tank=A001&day=2027-02-03", await teacher.ReadAsync(sheet), StringComparison.Ordinal);
    }

    private static async Task<(PortalHost Host, TestProgramme One, string Sheet)> BeginAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        var booking = BookingSteps.Settled(world.One);
        await host.SeedAsync(db => db.Add(booking));
        return (host, world.One, $"/releases/bookings/{booking.Id}/day");
    }

    private static async Task CountBothAsync(HttpClient client, string sheet, string fish)
    {
        await client.SendAsync(sheet, Count("Ada Adult", fish, 1, 1), "count");
        await client.SendAsync(sheet, Count("Bo Adult", fish, 1, 2), "count");
    }

    private static Dictionary<string, string> Count(string counter, string fish, int turn, int seat) =>
        Fields(("Counter", counter), ("Fish", fish), ("Turn", $"{turn}"), ("Seat", $"{seat}"));

    private static Dictionary<string, string> Signed(string name, params (string Field, string Value)[] more) => Fields([("SignedAs", name), .. more]);
}
