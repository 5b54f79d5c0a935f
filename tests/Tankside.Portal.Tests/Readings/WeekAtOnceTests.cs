using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>Monday to Friday from the wall sheet in one form.</summary>
public partial class WeekAtOnceTests
{
    [Theory, BothDatabases]
    public async Task Five_days_are_five_readings_at_their_own_times(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);
        var monday = LastMonday(host);
        var fields = new Dictionary<string, string>();
        for (var day = 0; day < 5; day++)
        {
            fields[$"time.{day}"] = $"8:{40 + day}";
            fields[$"water.{day}"] = $"5{day},5";
            fields[$"unit.{day}"] = "F";
            fields[$"dead.{day}"] = $"{day}";
            fields[$"ok.{day}"] = "true";
        }

        fields["clear.2"] = "n";
        var answer = await client.PostFormAsync($"{Address(world)}?of={monday:yyyy-MM-dd}", fields);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("5 days are saved", WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var clock = ProgrammeClock.Of(world.One.Programme.TimeZone);
        var stored = await db.Readings.AsNoTracking().OrderBy(r => r.At).ToListAsync();
        Assert.Equal(Enumerable.Range(0, 5).Select(d => clock.Utc(monday.AddDays(d), new TimeOnly(8, 40 + d))), stored.Select(r => r.At));
        Assert.Equal(["50,5", "51,5", "52,5", "53,5", "54,5"], stored.Select(r => r.TypedWater));
        Assert.Equal([0, 1, 2, 3, 4], stored.Select(r => r.Seen.DeadAlevins ?? r.Seen.DeadEggs ?? r.Seen.DeadFry));
        Assert.Equal([true, true, false, true, true], stored.Select(r => r.Seen.Clear));
        Assert.All(stored, r => Assert.Equal((true, true, true, ReadingSource.Person), (r.Seen.Moving, r.Seen.Bubbles, r.Seen.LevelOk, r.Source)));
    }

    [Theory, BothDatabases]
    public async Task The_same_week_sent_twice_is_stored_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);
        var send = await client.OpenFormAsync($"{Address(world)}?of={LastMonday(host):yyyy-MM-dd}", new Dictionary<string, string>
        {
            ["water.0"] = "52",
            ["unit.0"] = "F",
            ["time.0"] = "8:40",
        });

        await send();
        await send();

        await using var db = host.OpenDb();
        Assert.Equal(1, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Good_days_are_stored_and_the_others_asked_again_with_what_was_typed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);

        var answer = await client.PostFormAsync($"{Address(world)}?of={LastMonday(host):yyyy-MM-dd}", new Dictionary<string, string>
        {
            ["water.0"] = "52",
            ["unit.0"] = "F",
            ["time.0"] = "8:40",
            ["water.1"] = "warm",
            ["unit.1"] = "F",
            ["time.1"] = "8:40",
            ["water.2"] = "53",
            ["unit.2"] = "F",
            ["time.2"] = "early",
            ["moving.3"] = "perhaps",
            ["time.3"] = "8:40",
            ["water.4"] = "52",
            ["unit.4"] = "C",
            ["time.4"] = "8:40",
        });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        foreach (var kept in new[] { "value=\"warm\"", "value=\"early\"", "value=\"perhaps\"", "Saved: 8:40 52 °F", "The number looks odd" })
        {
            Assert.Contains(kept, page, StringComparison.Ordinal);
        }

        await using var db = host.OpenDb();
        Assert.Equal(
            [(ReadingState.Accepted, 11.11), (ReadingState.Asked, 52)],
            (await db.Readings.AsNoTracking().OrderBy(r => r.At).ToListAsync()).Select(r => (r.State, r.Seen.WaterC!.Value)));
    }

    [Fact]
    public async Task Days_to_come_cannot_be_typed_and_days_that_are_read_already_say_so()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddMinutes(-20), "52", 52, TemperatureUnit.F));
        var client = await host.ClientAs(Role.Teacher, world.One);
        var today = ProgrammeClock.Of(world.One.Programme.TimeZone).Day(host.Now);
        var ahead = Math.Max(0, (int)DayOfWeek.Friday - (int)today.DayOfWeek);

        var page = WebUtility.HtmlDecode(await client.GetStringAsync($"{Address(world)}?of={today.AddDays(40):yyyy-MM-dd}"));

        Assert.Equal(ahead, Regex.Count(page, ">Not yet<"));
        Assert.Equal(5 - ahead, Regex.Count(page, "name=\"water\\.\\d\""));
        Assert.Contains("52 °F</small>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dead_that_a_class_counted_are_shown_and_not_asked_for_again()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var monday = LastMonday(host);
        var at = ProgrammeClock.Of(world.One.Programme.TimeZone).Utc(monday.AddDays(1), new TimeOnly(9, 0));
        await host.AcceptAsync(Sent.Seen(world.One.Tanks[0], at, new Observation { DeadAlevins = 3 }, ReadingSource.Class));
        var client = await host.ClientAs(Role.Teacher, world.One);

        var page = WebUtility.HtmlDecode(await client.GetStringAsync($"{Address(world)}?of={monday:yyyy-MM-dd}"));

        Assert.Contains("there is 09:00, 3 dead counted", page, StringComparison.Ordinal);
        Assert.Equal(["dead.0", "dead.2", "dead.3", "dead.4"], Regex.Matches(page, "name=\"(dead\\.\\d)\"").Select(m => m.Groups[1].Value));
    }

    /// <summary>Sends a week with one day's fields, that of the world's now.</summary>
    internal static async Task<(HttpResponseMessage Answer, Guid Id)> SendAsync(
        HttpClient client, PortalHost host, TestWorld world, Dictionary<string, string> day)
    {
        var clock = ProgrammeClock.Of(world.One.Programme.TimeZone);
        var today = clock.Day(host.Now);
        var number = (int)today.DayOfWeek - 1;
        var page = await client.GetStringAsync(Address(world));
        var id = Guid.Parse(Regex.Match(page, $"name=\"id\\.{number}\" value=\"([^\"]+)\"").Groups[1].Value);
        var fields = day.ToDictionary(f => $"{f.Key}.{number}", f => f.Value);
        fields[$"id.{number}"] = id.ToString();
        fields[$"time.{number}"] = clock.Local(host.Now).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        return (await client.PostFormAsync(Address(world), fields), id);
    }

    private static string Address(TestWorld world) => $"/tanks/{world.One.Tanks[0].Code}/reading/week";

    private static DateOnly LastMonday(PortalHost host)
    {
        var day = DateOnly.FromDateTime(host.Now).AddDays(-7);
        return day.AddDays(-(((int)day.DayOfWeek + 6) % 7));
    }
}
