using System.Net;
using Ical.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.HatchCalendar;

/// <summary>Dates in one's own calendar: what is read there is read back with the library that calendar programs are written with.</summary>
public class FeedTests
{
    [Theory, BothDatabases]
    public async Task A_teachers_feed_shows_the_tanks_of_the_school_as_whole_days_and_moves_the_same_events_with_the_readings(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var address = await MadeAsync(await host.ClientAs(Role.Teacher, world.One), "");

        var before = await ReadAsync(host, address);
        Assert.Equal(["A001: hatch expected", "A001: swim-up expected"], before.Events.Select(e => e.Summary!).Order());
        var swim = before.Events.Single(e => e.Summary == "A001: swim-up expected");
        Assert.True(swim.IsAllDay);
        Assert.EndsWith("/tanks/A001", swim.Url!.AbsolutePath, StringComparison.Ordinal);

        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], host.Now.AddDays(-8), new Observation { Hatched = Share.Most }), Sent.Water(world.One.Tanks[0], host.Now.AddDays(-7), 8));
        await host.JudgeAsync();

        var after = await ReadAsync(host, address);
        Assert.Equal(before.Events.Select(e => e.Uid).Order(), after.Events.Select(e => e.Uid).Order());
        var seen = after.Events.Single(e => e.Summary == "A001: hatch, half seen");
        Assert.Equal((new DateOnly(2027, 1, 26), new DateOnly(2027, 1, 27)), (seen.Start!.Date, seen.End!.Date));
        Assert.NotEqual(swim.Description, after.Events.Single(e => e.Uid == swim.Uid).Description); // colder, so likeliest later
    }

    [Theory, BothDatabases]
    public async Task It_can_be_of_one_tank_or_all_and_tells_which_eggs_are_to_come(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var lot = new EggLot { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, SeasonId = world.One.Season.Id, Code = "L9" };
        await host.SeedAsync(db => db.AddRange(lot, new Allotment
        {
            Id = Guid.NewGuid(),
            SeasonId = world.One.Season.Id,
            TankId = world.One.Tanks[1].Id,
            LotId = lot.Id,
            Eggs = 150,
            DeliveryOn = new DateOnly(2027, 2, 9),
        }));

        var all = await ReadAsync(host, await MadeAsync(coordinator, ""));
        var one = await ReadAsync(host, await MadeAsync(coordinator, $"tank:{world.One.Tanks[0].Id}"));
        var school = await ReadAsync(host, await MadeAsync(coordinator, $"school:{world.One.Schools[1].Id}"));

        Assert.Equal(["A001", "A002"], all.Events.Select(e => e.Summary![..4]).Distinct().Order());
        Assert.Equal(["A001"], one.Events.Select(e => e.Summary![..4]).Distinct());
        Assert.Equal(["A002"], school.Events.Select(e => e.Summary![..4]).Distinct());
        Assert.Equal(new DateOnly(2027, 2, 9), school.Events.Single(e => e.Summary == "A002: 150 eggs come").Start!.Date);
        Assert.Contains("3 addresses are in use.", await coordinator.ReadAsync("/calendar/feeds"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_plan_that_is_kept_puts_each_turn_of_the_dial_on_its_day(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await MadeAsync(coordinator, $"tank:{world.One.Tanks[0].Id}");
        SetPointStep[] steps = [new(new DateOnly(2027, 2, 1), 10), new(new DateOnly(2027, 2, 4), 10.5556), new(new DateOnly(2027, 2, 5), 11.1111)];
        await host.SeedAsync(db => db.Add(new SetPointPlan
        {
            Id = Guid.NewGuid(),
            TankId = world.One.Tanks[0].Id,
            MadeAt = host.Now.AddDays(-2),
            MadeBy = world.One.People[Role.Teacher].Id,
            Steps = StoredSteps.Write(steps),
        }));

        var turns = (await ReadAsync(host, address)).Events.Where(e => e.Uid!.StartsWith("dial-", StringComparison.Ordinal)).OrderBy(e => e.Start!.Date).ToList();

        Assert.Equal(
            [(new DateOnly(2027, 2, 4), "A001: set the dial to 51 °F (10.6 °C)"), (new DateOnly(2027, 2, 5), "A001: set the dial to 52 °F (11.1 °C)")],
            turns.Select(e => (e.Start!.Date, e.Summary!.Replace('\u00A0', ' '))));
    }

    [Theory, BothDatabases]
    public async Task A_revoked_one_is_gone_at_once_and_nobody_revokes_what_is_not_theirs(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (coordinator, teacher) = (await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.Teacher, world.One));
        var (all, own) = (await MadeAsync(coordinator, ""), await MadeAsync(teacher, ""));
        await using var db = host.OpenDb();
        var feeds = await db.CalendarFeeds.AsNoTracking().ToDictionaryAsync(f => f.IssuedBy, f => $"{f.Id}");

        var kept = await teacher.PostFormAsync("/calendar/feeds", new Dictionary<string, string> { ["Revoked"] = feeds[world.One.People[Role.Coordinator].Id] }, "revoke");
        Assert.Contains("There is no such address any more.", await (await teacher.GetAsync(kept.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync(all)).StatusCode);

        await coordinator.PostFormAsync("/calendar/feeds", new Dictionary<string, string> { ["Revoked"] = feeds[world.One.People[Role.Teacher].Id] }, "revoke");
        Assert.Equal(HttpStatusCode.NotFound, (await host.Anonymous().GetAsync(own)).StatusCode);
        Assert.Contains("No calendar reads these dates yet.", await teacher.ReadAsync("/calendar/feeds"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Who_leaves_the_programme_takes_their_feeds_along(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var address = await MadeAsync(await host.ClientAs(Role.Teacher, world.One), "");

        await host.SeedAsync(db => db.Remove(db.Memberships.Single(m => m.PersonId == world.One.People[Role.Teacher].Id)));

        Assert.Equal(HttpStatusCode.NotFound, (await host.Anonymous().GetAsync(address)).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task What_is_not_ones_own_cannot_be_made_an_address_of(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        foreach (var of in new[] { $"tank:{world.One.Tanks[1].Id}", $"school:{world.One.Schools[1].Id}", "tank:nonsense" })
        {
            var sent = await teacher.PostFormAsync("/calendar/feeds", new Dictionary<string, string> { ["Input.Of"] = of }, "make");
            Assert.Contains("No address was made", await (await teacher.GetAsync(sent.Headers.Location)).NoticeAsync(), StringComparison.Ordinal);
        }

        await using var db = host.OpenDb();
        Assert.False(await db.CalendarFeeds.AnyAsync());
    }

    private static async Task<string> MadeAsync(HttpClient client, string of)
    {
        var sent = await client.PostFormAsync("/calendar/feeds", new Dictionary<string, string> { ["Input.Of"] = of }, "make");
        return (await (await client.GetAsync(sent.Headers.Location)).LinkToHandOnAsync())!;
    }

    private static async Task<Calendar> ReadAsync(PortalHost host, string address)
    {
        var answer = await host.Anonymous().GetAsync(address);
        Assert.Equal((HttpStatusCode.OK, "text/calendar"), (answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
        return Calendar.Load(await answer.Content.ReadAsStringAsync())!;
    }
}
