using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Commands;
using Tankside.Portal.Seasons.SetUp;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Seasons;

public class SetUpTests
{
    private const string Email = "rosa@example.test", Password = "eyed eggs on a cold morning";

    [Theory, BothDatabases]
    public async Task The_printed_link_sets_up_a_programme_its_lead_and_its_season_once(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var link = await PrintAsync(host);
        var lead = host.Anonymous();

        var made = await lead.PostFormAsync(link, Fields(), "set-up");

        Assert.Equal(HttpStatusCode.Found, made.StatusCode);
        Assert.Contains("You are the only one in Alder Basin.", await lead.WordsAsync("/people"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var programme = await db.Programmes.SingleAsync();
        var season = await db.Seasons.SingleAsync();
        Assert.Equal(("America/Denver", TemperatureUnit.C), (programme.TimeZone, programme.ScreenUnit));
        Assert.Equal(("2026-27", new DateOnly(2026, 7, 1), new DateOnly(2027, 6, 30)), (season.Name, season.StartsOn, season.EndsOn));
        Assert.Equal(Role.ProgrammeLead, (await db.Memberships.SingleAsync()).Role);
        Assert.Equal(host.Now, (await db.SetUpLinks.SingleAsync()).UsedAt);
        await host.Anonymous().SignInAsync(Email, Password);
        await AssertRefusedAsync(host, link, "This installation is set up.");
    }

    [Theory, BothDatabases]
    public async Task Any_programme_closes_the_door(DatabaseKind kind)
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(kind);
        await using var __ = host;

        await AssertRefusedAsync(host, await PrintAsync(host), "This installation is set up.");
    }

    [Theory, BothDatabases]
    public async Task The_command_prints_a_link_for_a_further_programme_which_a_known_account_may_lead(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var output = new StringWriter();
        await SetUpCommand.PrintAsync(host.Services, output, CancellationToken.None);
        var link = new Uri(output.ToString().Trim()["set-up link: ".Length..]).PathAndQuery;
        var known = new Dictionary<string, string>(Fields()) { ["Input.Email"] = world.One.EmailOf(Role.Coordinator) };

        var guessed = await host.Anonymous().PostFormAsync(link, known, "set-up");
        (known["Input.Password"], known["Input.Again"]) = (TestWorld.Password, TestWorld.Password);
        var taken = await host.Anonymous().PostFormAsync(link, new Dictionary<string, string>(known) { ["Input.Programme"] = world.Two.Programme.Name }, "set-up");
        var lead = host.Anonymous();
        var made = await lead.PostFormAsync(link, known, "set-up");

        Assert.Contains("this is not its password", await guessed.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("There is a programme of this name here already.", await taken.WordsAsync(), StringComparison.Ordinal);
        Assert.Equal("/season/steps", made.Next());
        Assert.Contains("You are the only one in Alder Basin.", await lead.WordsAsync("/people"), StringComparison.Ordinal);
        await AssertRefusedAsync(host, link, "This installation is set up.");
    }

    [Theory, BothDatabases]
    public async Task A_second_start_prints_the_same_link_and_a_later_one_a_new_link(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var first = await PrintAsync(host);
        host.Time.Advance(SetUpLink.Lifetime - TimeSpan.FromMinutes(1));

        Assert.Equal(first, await PrintAsync(host));
        host.Time.Advance(TimeSpan.FromMinutes(1));
        var second = await PrintAsync(host);

        Assert.NotEqual(first, second);
        await AssertRefusedAsync(host, first, "This set-up link does not work.");
        await AssertRefusedAsync(host, "/set-up/made-up", "This set-up link does not work.");
        Assert.Equal(HttpStatusCode.OK, (await host.Anonymous().GetAsync(second)).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Two_who_send_it_at_once_make_one_programme(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var link = await PrintAsync(host);
        var both = new[] { host.Anonymous(), host.Anonymous() };
        var seen = await Task.WhenAll(both.Select(c => c.GetStringAsync(link)));

        var answers = await Task.WhenAll(both.Zip(seen, (c, page) => c.PostSeenAsync(link, page, "set-up", Fields())));

        Assert.Equal([HttpStatusCode.Found, HttpStatusCode.Gone], answers.Select(a => a.StatusCode).Order());
        await using var db = host.OpenDb();
        Assert.Single(await db.Programmes.ToListAsync());
        Assert.Single(await db.Users.ToListAsync());
    }

    [Theory]
    [InlineData("Input.TimeZone", "Alder/Basin", "Choose a time zone from the list.")]
    [InlineData("Input.TimeZone", "", "Choose the programme's time zone.")]
    [InlineData("Input.Programme", "", "Type the programme's name.")]
    [InlineData("Input.Season", "", "Type a name for the season.")]
    [InlineData("Input.Email", "rosa", "This does not look like an email address.")]
    [InlineData("Input.Again", "something else again", "The two passwords differ.")]
    public async Task What_does_not_do_is_said_and_nothing_is_made(string field, string value, string says)
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        var answer = await host.Anonymous().PostFormAsync(await PrintAsync(host), new Dictionary<string, string>(Fields()) { [field] = value }, "set-up");

        Assert.Contains(says, await answer.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("value=\"Rosa Lind\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Empty(await db.Programmes.ToListAsync());
        Assert.Empty(await db.Users.ToListAsync());
    }

    [Theory]
    [InlineData("Input.TimeZone", "Alder/Basin", "Elija una zona horaria de la lista.")]
    [InlineData("Input.Email", "rosa", "Esto no parece un correo electrónico.")]
    [InlineData("Input.Season", "1234567890123456789012345678901234567890x", "Como máximo 40 caracteres, por favor.")]
    public async Task Whoever_reads_Spanish_is_refused_in_Spanish(string field, string value, string says)
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        var answer = await host.Anonymous().PostFormAsync(await PrintAsync(host) + "?language=es", new Dictionary<string, string>(Fields()) { [field] = value }, "set-up");

        var words = await answer.WordsAsync();
        Assert.Contains(says, words, StringComparison.Ordinal);
        Assert.Contains("Ponga en marcha su programa", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lead_who_set_it_up_in_Spanish_is_written_to_in_Spanish()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        await host.Anonymous().PostFormAsync(await PrintAsync(host) + "?language=es", Fields(), "set-up");

        await using var db = host.OpenDb();
        Assert.Equal("es", (await db.Users.SingleAsync()).Language);
    }

    [Theory]
    [InlineData("2026-06-30", "2025-26")]
    [InlineData("2026-07-01", "2026-27")]
    [InlineData("2099-12-31", "2099-00")]
    public void A_season_turns_in_the_summer(string day, string name) =>
        Assert.Equal(name, FirstSeason.At(DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture)).Name);

    private static Dictionary<string, string> Fields() => new()
    {
        ["Input.Programme"] = "Alder Basin",
        ["Input.TimeZone"] = "America/Denver",
        ["Input.Unit"] = "C",
        ["Input.Season"] = "2026-27",
        ["Input.Name"] = "Rosa Lind",
        ["Input.Email"] = Email,
        ["Input.Password"] = Password,
        ["Input.Again"] = Password,
    };

    private static async Task<string> PrintAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        await using var output = new StringWriter();
        await SetUp.PrintLinkAsync(db, new Uri(PortalHost.PublicUrl), host.Now, output);
        var line = output.ToString().Trim();
        Assert.StartsWith("set-up link: " + PortalHost.PublicUrl + "set-up/", line, StringComparison.Ordinal);
        return new Uri(line["set-up link: ".Length..]).PathAndQuery;
    }

    private static async Task AssertRefusedAsync(PortalHost host, string link, string says)
    {
        var answer = await host.Anonymous().GetAsync(link);
        Assert.Equal(HttpStatusCode.Gone, answer.StatusCode);
        Assert.Contains(says, await answer.WordsAsync(), StringComparison.Ordinal);
    }
}
