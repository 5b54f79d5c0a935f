using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A class says what it sees: the steps are there at once, and the flag goes up with it.</summary>
public partial class HelpAtTheTankTests
{
    private static readonly (string Sign, FlagKind Flag)[] Troubles =
    [
        ("still", FlagKind.PumpFault), ("nobubbles", FlagKind.PumpFault), ("gasping", FlagKind.LowOxygen), ("warm", FlagKind.Warm),
        ("ice", FlagKind.IcedCoil), ("cloudy", FlagKind.Ammonia), ("floor", FlagKind.PumpFault), ("dead", FlagKind.DieOff),
    ];

    [Theory, BothDatabases]
    public async Task What_a_class_says_it_sees_raises_its_flag_and_shows_the_steps(DatabaseKind kind)
    {
        Assert.Equal(TankSigns.All.Select(TankSigns.NameOf).Order(), Troubles.Select(t => t.Sign).Order());
        foreach (var (sign, flag) in Troubles)
        {
            var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
            await using var _ = host;
            var client = host.Anonymous();
            await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddDays(-1), 10.5) with { Seen = new Observation { DeadAlevins = 0 } });

            var answer = await SendAsync(client, world, sign, dead: "40");

            Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
            var page = await ReadAsync(client, answer.Headers.Location!.ToString());
            Assert.Contains("Your coordinator can see it now.", page, StringComparison.Ordinal);
            Assert.Equal([sign], ShownSigns(page));
            await host.JudgeAsync();
            Assert.Equal((sign, 1), (sign, (await host.FlagsAsync(flag)).Count(f => f.State == FlagState.Open)));
        }
    }

    [Theory, BothDatabases]
    public async Task Pressed_twice_it_is_said_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var id = Guid.NewGuid();
        var first = await SendAsync(host.Anonymous(), world, "still", id: id);
        host.Time.Advance(TimeSpan.FromSeconds(3));

        var second = await SendAsync(host.Anonymous(), world, "still", id: id);

        Assert.Equal(first.Headers.Location, second.Headers.Location);
        await using var db = host.OpenDb();
        Assert.Equal((1, ReadingSource.Class), (await db.Readings.CountAsync(), (await db.Readings.SingleAsync()).Source));
    }

    [Fact]
    public async Task Another_sign_under_the_same_id_is_another_word()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var id = Guid.NewGuid();
        await SendAsync(host.Anonymous(), world, "still", id: id);

        var second = await SendAsync(host.Anonymous(), world, "floor", id: id);

        Assert.DoesNotContain(id.ToString(), second.Headers.Location!.ToString(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal([(false, null), (null, true)], (await db.Readings.OrderBy(r => r.Id).ToListAsync()).Select(r => (r.Seen.Moving, r.Seen.WaterOnFloor)));
    }

    [Fact]
    public async Task Dead_without_a_number_and_a_sign_that_is_none_are_asked_again_and_store_nothing()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        foreach (var (sign, dead, said) in new[] { ("dead", "", "How many?"), ("dead", "0", "How many?"), ("dead", "some", "How many?"), ("fire", "", "Press what you see.") })
        {
            var answer = await SendAsync(host.Anonymous(), world, sign, dead);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
            Assert.Contains(said, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
        }

        await using var db = host.OpenDb();
        Assert.False(await db.Readings.AnyAsync());
    }

    [Fact]
    public async Task A_word_that_waited_on_the_device_has_the_time_it_was_said()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var typed = new DateTimeOffset(2001, 1, 1, 9, 0, 0, TimeSpan.Zero); // the device's own clock, far from right

        await SendAsync(host.Anonymous(), world, "still", waited: (typed, typed.AddHours(3)));

        await using var db = host.OpenDb();
        Assert.Equal(host.Now.AddHours(-3), (await db.Readings.SingleAsync()).At);
    }

    [Fact]
    public async Task A_teacher_says_it_signed_in_and_it_is_an_adults_word()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);

        var answer = await client.PostFormAsync($"/tanks/{world.One.Tanks[0].Code}/reading/help", new Dictionary<string, string> { ["sign"] = "ice" });

        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        await using var db = host.OpenDb();
        Assert.Equal((ReadingSource.Person, true), ((await db.Readings.SingleAsync()).Source, (await db.Readings.SingleAsync()).Seen.IceOnCoil));
    }

    [Fact]
    public async Task The_steps_are_there_in_Spanish_before_anything_is_said()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var page = await ReadAsync(host.Anonymous(), $"{Address(world)}?lang=es&sign=floor");

        Assert.Contains("Dile ya a tu maestra o maestro: hay agua en el piso.", page, StringComparison.Ordinal);
        Assert.Equal(["floor"], ShownSigns(page));
        Assert.Equal(TankSigns.All.Count, Aid().Count(page));
    }

    [Fact]
    public void A_child_is_sent_to_an_adult_and_never_to_a_plug()
    {
        var troublesOfMachines = TankSigns.All.Except([TankSign.Cloudy, TankSign.Dead]);
        foreach (var words in ClassWords.All)
        {
            Assert.All(TankSigns.All, s => Assert.StartsWith(
                words == ClassWords.English ? "Tell your teacher" : "Dile", words[$"sign.{TankSigns.NameOf(s)}.class"], StringComparison.Ordinal));
            Assert.All(troublesOfMachines, s => Assert.Contains(
                words == ClassWords.English ? "Do not touch any plug" : "No toques ningún enchufe", words[$"sign.{TankSigns.NameOf(s)}.class"], StringComparison.Ordinal));
        }
    }

    private static string Address(TestWorld world) => $"/t/{world.One.RoomCodes[0].Code}/help";

    private static async Task<string> ReadAsync(HttpClient client, string address) => WebUtility.HtmlDecode(await client.GetStringAsync(address));

    private static Task<HttpResponseMessage> SendAsync(
        HttpClient client, TestWorld world, string sign, string dead = "", Guid? id = null, (DateTimeOffset Typed, DateTimeOffset Sent)? waited = null)
    {
        var fields = new Dictionary<string, string> { ["id"] = (id ?? Guid.NewGuid()).ToString(), ["sign"] = sign, ["dead"] = dead };
        if (waited is var (typed, sent))
        {
            fields["typedAt"] = $"{typed.ToUnixTimeMilliseconds()}";
            fields["sentAt"] = $"{sent.ToUnixTimeMilliseconds()}";
        }

        return client.PostAsync(Address(world), new FormUrlEncodedContent(fields));
    }

    private static IEnumerable<string> ShownSigns(string page) => Aid().Matches(page).Where(m => !m.Groups[2].Value.Contains("hidden", StringComparison.Ordinal)).Select(m => m.Groups[1].Value);

    [GeneratedRegex(@"<section class=""aid"" data-sign=""(\w+)""([^>]*)>")]
    private static partial Regex Aid();
}
