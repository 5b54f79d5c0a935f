using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases.NextSeason;

/// <summary>A programme that has nothing yet, and one whose season has not begun or is over: every page still makes sense.</summary>
public class FirstStepsTests
{
    private static readonly string[] Pages =
    [
        "/", "/round", "/tanks", "/calendar", "/weekend", "/sweeps", "/kit", "/lots", "/lots/allot", "/lots/order", "/runs", "/ledger", "/releases", "/releases/bookings", "/releases/permits",
        "/releases/due", "/totals", "/totals/years", "/agency", "/season", "/season/account", "/season/new", "/season/closures", "/season/steps", "/schools", "/labels", "/places/import", "/people",
    ];

    [Theory, BothDatabases]
    public async Task The_set_up_link_leads_to_the_first_steps_and_ticks_come_from_what_is_there(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var lead = await SetUpAsync(host);

        var empty = await lead.ReadAsync("/season/steps");
        Assert.Contains("2 of 12 steps are done.", empty, StringComparison.Ordinal);
        Assert.Contains("Next: schools, rooms and tanks", empty, StringComparison.Ordinal);
        Assert.Contains("2 of 12 steps to the first reading are done.", await lead.ReadAsync("/"), StringComparison.Ordinal);

        await using var db = host.OpenDb();
        var programme = await db.Programmes.SingleAsync();
        var school = new School { Id = Guid.NewGuid(), ProgrammeId = programme.Id, Name = "Heron Ford", Area = "north" };
        var room = new Classroom { Id = Guid.NewGuid(), SchoolId = school.Id, Name = "Room 3" };
        var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = programme.Id, ClassroomId = room.Id, Code = "A001", Litres = 208, SetPointC = 10.5 };
        var code = new RoomCode { Id = Guid.NewGuid(), TankId = tank.Id, Code = "bcdfghjkmnpq", IssuedAt = host.Now };
        await host.SeedAsync(d => d.AddRange(school, room, tank, code));
        var filled = await lead.ReadAsync("/season/steps");
        Assert.Contains("3 of 12 steps are done.", filled, StringComparison.Ordinal);
        Assert.Contains("1 school has no teacher who has accepted.", filled, StringComparison.Ordinal);

        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/labels/all.pdf")).StatusCode);
        Assert.Equal(host.Now, await db.RoomCodes.Select(c => c.PrintedAt).SingleAsync());
        Assert.Contains("4 of 12 steps are done.", await lead.ReadAsync("/season/steps"), StringComparison.Ordinal);

        await host.SeedAsync(d => d.Add(new Reading { SenderId = Guid.NewGuid(), TankId = tank.Id, At = host.Now, ReceivedAt = host.Now, Seen = new Observation { WaterC = 10 }, ContentHash = "0" }));
        Assert.Contains("5 of 12 steps are done.", await lead.ReadAsync("/season/steps"), StringComparison.Ordinal);
        Assert.DoesNotContain("steps to the first reading", await lead.ReadAsync("/"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Every_page_makes_sense_before_a_season_in_an_empty_one_and_between_two(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var lead = await SetUpAsync(host);
        await AssertServedAsync(lead);

        // Before: the only season lies ahead.
        await SetDaysAsync(host, host.Now.AddDays(30), host.Now.AddDays(390));
        Assert.Contains(" begins on ", await lead.ReadAsync("/season"), StringComparison.Ordinal);
        await AssertServedAsync(lead);

        // Between: it is over, and the next is not made.
        await SetDaysAsync(host, host.Now.AddDays(-400), host.Now.AddDays(-30));
        Assert.Contains("; the next is not made yet.", await lead.ReadAsync("/season"), StringComparison.Ordinal);
        Assert.Contains("Make the next season.", await lead.ReadAsync("/season/steps"), StringComparison.Ordinal);
        await AssertServedAsync(lead);
    }

    private static async Task AssertServedAsync(HttpClient lead)
    {
        foreach (var address in Pages)
        {
            using var answer = await lead.GetAsync(address);
            Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{address} answered {(int)answer.StatusCode}");
        }
    }

    private static Task SetDaysAsync(PortalHost host, DateTime from, DateTime to) => host.SeedAsync(db => db.Seasons.ExecuteUpdate(set => set
        .SetProperty(s => s.StartsOn, DateOnly.FromDateTime(from)).SetProperty(s => s.EndsOn, DateOnly.FromDateTime(to))));

    private static async Task<HttpClient> SetUpAsync(PortalHost host)
    {
        await using var output = new StringWriter();
        await using (var db = host.OpenDb())
        {
            await SetUp.PrintLinkAsync(db, new Uri(PortalHost.PublicUrl), host.Now, output);
        }

        var lead = host.Anonymous();
        var made = await lead.PostFormAsync(new Uri(output.ToString().Trim()["set-up link: ".Length..]).PathAndQuery, new Dictionary<string, string>
        {
            ["Input.Programme"] = "Alder Basin",
            ["Input.TimeZone"] = "America/Denver",
            ["Input.Season"] = "2026-27",
            ["Input.Name"] = "Rosa Lind",
            ["Input.Email"] = "rosa@example.test",
            ["Input.Password"] = TestWorld.Password,
            ["Input.Again"] = TestWorld.Password,
        }, "set-up");
        Assert.Equal("/season/steps", new Uri(new Uri(PortalHost.PublicUrl), made.Headers.Location!).AbsolutePath);
        return lead;
    }
}
