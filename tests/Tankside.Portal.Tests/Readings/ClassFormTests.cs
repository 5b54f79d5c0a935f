using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>The class form as any client may post it.</summary>
public class ClassFormTests
{
    [Theory, BothDatabases]
    public async Task The_same_form_sent_twice_is_one_reading_and_both_are_told_it_is_saved(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = host.Anonymous();
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "52", ["unit"] = "F", ["moving"] = "true" };

        var first = await PostAsync(client, world, fields);
        host.Time.Advance(TimeSpan.FromSeconds(20));
        var second = await PostAsync(client, world, fields);

        Assert.Equal(HttpStatusCode.SeeOther, first.StatusCode);
        Assert.Equal(first.Headers.Location, second.Headers.Location);
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_form_changed_and_sent_again_is_asked_to_be_sent_as_a_new_reading(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "52", ["unit"] = "F" };
        await PostAsync(host.Anonymous(), world, fields);

        var answer = await PostAsync(host.Anonymous(), world, new(fields) { ["water"] = "53" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync();
        Assert.Contains("value=\"53\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain($"name=\"id\" value=\"{fields["id"]}\"", page, StringComparison.Ordinal);
        Assert.Contains($"name=\"instead\" value=\"{fields["id"]}\"", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_form_that_waited_on_the_device_has_the_time_it_was_typed_and_is_one_reading_however_late_it_comes_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var read = host.Now;
        var typed = new DateTimeOffset(2019, 5, 1, 3, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds(); // the device's clock has lost its date
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "52", ["unit"] = "F", ["typedAt"] = $"{typed}" };
        foreach (var hours in new[] { 3, 29 })
        {
            host.Time.Advance(read.AddHours(hours) - host.Now);
            var sent = await PostAsync(host.Anonymous(), world, new(fields) { ["sentAt"] = $"{typed + (hours * 3_600_000L) + 40}" });
            Assert.Equal((HttpStatusCode.SeeOther, true), (sent.StatusCode, sent.Headers.Location!.ToString().Contains("?sent=", StringComparison.Ordinal)));
        }

        await using var db = host.OpenDb();
        Assert.Equal(read.AddMilliseconds(-40), (await db.Readings.SingleAsync()).At);
    }

    [Fact]
    public async Task A_form_that_differs_only_in_its_scale_is_not_the_same_form()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "52", ["unit"] = "C" };
        await PostAsync(host.Anonymous(), world, fields);
        host.Time.Advance(TimeSpan.FromSeconds(20));

        var answer = await PostAsync(host.Anonymous(), world, new(fields) { ["unit"] = "F" });

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
    }

    [Fact]
    public async Task The_outbox_sends_the_same_words_again_whatever_its_clock_says_and_is_told_in_a_header_where_to_go_on()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = host.Anonymous();
        client.DefaultRequestHeaders.Add("Tankside-Outbox", "1");
        var fields = new Dictionary<string, string> { ["id"] = Guid.NewGuid().ToString(), ["water"] = "52", ["unit"] = "F", ["typedAt"] = "1000", ["sentAt"] = "2000" };
        var first = await PostAsync(client, world, fields);
        host.Time.Advance(TimeSpan.FromHours(30));

        var again = await PostAsync(client, world, new(fields) { ["sentAt"] = "9000000", ["again"] = "1" }); // its clock was set meanwhile

        Assert.All([first, again], a => Assert.Equal(
            (HttpStatusCode.OK, $"{Address(world)}?sent={fields["id"]}", "1"),
            (a.StatusCode, a.Headers.GetValues("Tankside-Next").Single(), a.Headers.GetValues("Tankside-Answer").Single())));
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.Readings.CountAsync());
    }

    [Fact]
    public async Task A_form_put_right_at_once_is_read_now_and_one_from_the_outbox_keeps_its_time_and_says_so()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var fields = new Dictionary<string, string> { ["water"] = "512", ["unit"] = "F", ["typedAt"] = "1000" };

        var atOnce = await (await PostAsync(host.Anonymous(), world, new(fields) { ["sentAt"] = "1200" })).Content.ReadAsStringAsync();
        var late = await (await PostAsync(host.Anonymous(), world, new(fields) { ["sentAt"] = "90001000" })).Content.ReadAsStringAsync();

        Assert.DoesNotContain("typedAt", atOnce, StringComparison.Ordinal);
        Assert.Contains("name=\"typedAt\" value=\"1000\"", late, StringComparison.Ordinal);
        Assert.Contains("You typed this on", late, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1000000", "999999")]
    [InlineData("1", "99999999999999")]
    [InlineData("yesterday", "1000")]
    [InlineData("-5", "1000")]
    public async Task A_waiting_time_that_makes_no_sense_is_none(string typedAt, string sentAt)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        await PostAsync(host.Anonymous(), world, new() { ["water"] = "52", ["unit"] = "F", ["typedAt"] = typedAt, ["sentAt"] = sentAt });

        await using var db = host.OpenDb();
        Assert.Equal(host.Now, (await db.Readings.SingleAsync()).At);
    }

    [Theory, BothDatabases]
    public async Task The_scale_typed_last_at_a_tank_stands_chosen_the_next_time(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        Assert.Equal("F", await ChosenScaleAsync());

        await PostAsync(host.Anonymous(), world, new() { ["water"] = "11", ["unit"] = "C" });
        Assert.Equal("C", await ChosenScaleAsync());
        host.Time.Advance(TimeSpan.FromHours(1));
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now, "52", 52, TemperatureUnit.F));
        Assert.Equal("C", await ChosenScaleAsync()); // a logger's scale is nobody's thermometer

        async Task<string> ChosenScaleAsync() => System.Text.RegularExpressions.Regex.Match(
            await host.Anonymous().GetStringAsync(Address(world)), "name=\"unit\" value=\"([FC])\" checked").Groups[1].Value;
    }

    [Theory, BothDatabases]
    public async Task Two_answers_that_cannot_both_be_true_are_asked_back_and_stored_when_somebody_is_sure(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = host.Anonymous();
        var fields = new Dictionary<string, string>
        {
            ["id"] = Guid.NewGuid().ToString(),
            ["water"] = "52",
            ["unit"] = "F",
            ["hatched"] = "none",
            ["deadAlevins"] = "3",
        };

        var asked = await client.PostAsync($"{Address(world)}?lang=es", new FormUrlEncodedContent(fields));
        var page = WebUtility.HtmlDecode(await asked.Content.ReadAsStringAsync());

        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.StatusCode);
        Assert.Contains("Dos respuestas no van juntas: «¿Cuántos nacieron?»", page, StringComparison.Ordinal);
        Assert.Contains("name=\"sure\" value=\"1\"", page, StringComparison.Ordinal);
        Assert.Contains("value=\"52\"", page, StringComparison.Ordinal);
        await using (var db = host.OpenDb())
        {
            Assert.False(await db.Readings.AnyAsync());
        }

        Assert.Equal(HttpStatusCode.SeeOther, (await client.PostAsync(Address(world), new FormUrlEncodedContent([.. fields, new("sure", "1")]))).StatusCode);
        // Nobody stands before what the outbox sends by itself: it is stored as it is, and the coordinator asks.
        var later = new Dictionary<string, string>(fields) { ["id"] = Guid.NewGuid().ToString(), ["again"] = "1" };
        Assert.Equal(HttpStatusCode.SeeOther, (await client.PostAsync(Address(world), new FormUrlEncodedContent(later))).StatusCode);
        await using var after = host.OpenDb();
        Assert.Equal([(Share.None, 3), (Share.None, 3)], (await after.Readings.ToListAsync()).Select(r => (r.Seen.Hatched!.Value, r.Seen.DeadAlevins!.Value)));
    }

    [Fact]
    public async Task What_is_not_ticked_was_not_looked_at()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        await PostAsync(host.Anonymous(), world, new() { ["water"] = "52", ["unit"] = "F", ["clear"] = "false", ["deadEggs"] = "0" });

        await using var db = host.OpenDb();
        var seen = (await db.Readings.SingleAsync()).Seen;
        Assert.Equal((null, null, null, false, 0), (seen.Moving, seen.Bubbles, seen.LevelOk, seen.Clear, seen.DeadEggs));
        Assert.Equal(ReadingState.Accepted, (await db.Readings.SingleAsync()).State);
    }

    [Fact]
    public async Task A_form_that_is_no_form_is_a_bad_request_and_stores_nothing()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await host.Anonymous().PostAsync(
            Address(world), new StringContent("water=52&note=a%00b", Encoding.ASCII, "application/x-www-form-urlencoded"));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        await using var db = host.OpenDb();
        Assert.Equal(0, await db.Readings.CountAsync());
    }

    [Fact]
    public async Task A_browser_that_likes_Spanish_reads_Spanish_and_the_link_leads_to_the_other()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = host.Anonymous();
        client.DefaultRequestHeaders.AcceptLanguage.ParseAdd("es-MX,es;q=0.9,en;q=0.5");

        var page = WebUtility.HtmlDecode(await client.GetStringAsync(Address(world)));
        Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
        Assert.Contains("¿Qué marca el termómetro del agua?", page, StringComparison.Ordinal);
        Assert.Contains($"href=\"{Address(world)}?lang=en\" lang=\"en\">English</a>", page, StringComparison.Ordinal);

        var english = WebUtility.HtmlDecode(await client.GetStringAsync($"{Address(world)}?lang=en"));
        Assert.Contains("What does the thermometer in the water say?", english, StringComparison.Ordinal);
        Assert.Contains($"action=\"{Address(world)}?lang=en\"", english, StringComparison.Ordinal);
        Assert.Contains("Nuestro tanque", WebUtility.HtmlDecode(await client.GetStringAsync($"{Address(world)}/tank")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_chosen_language_is_kept_from_the_form_to_the_thanks()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = host.Anonymous();
        var spanish = $"{Address(world)}?lang=es";

        var wrong = WebUtility.HtmlDecode(await (await client.PostAsync(spanish, Form(("water", "512"), ("unit", "F")))).Content.ReadAsStringAsync());
        Assert.Contains("El agua de un tanque no puede estar a 512.", wrong, StringComparison.Ordinal);
        var none = WebUtility.HtmlDecode(await (await client.PostAsync(spanish, Form(("water", "once"), ("unit", "C")))).Content.ReadAsStringAsync());
        Assert.Contains("Escríbelo como 52 o 52,5.", none, StringComparison.Ordinal);

        var sent = await client.PostAsync(spanish, Form(("water", "11,1"), ("unit", "C"), ("moving", "true")));
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        var thanks = WebUtility.HtmlDecode(await client.GetStringAsync(sent.Headers.Location));
        Assert.Contains("Tu lectura quedó guardada: 11.1 °C a las", thanks, StringComparison.Ordinal);
        Assert.Contains("Tus peces ya nacieron.", thanks, StringComparison.Ordinal);

        var asked = await client.PostAsync(spanish, Form(("water", "52"), ("unit", "C")));
        Assert.Contains("Escribiste 52 °C. Así no es un tanque frío. ¿Cuál es?", WebUtility.HtmlDecode(await client.GetStringAsync(asked.Headers.Location)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_label_that_opens_nothing_says_so_in_Spanish()
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var __ = host;

        var answer = await host.Anonymous().GetAsync(new Uri("/t/bcdfghjkmnpq?lang=es", UriKind.Relative));

        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("Esta etiqueta no abre ningún tanque", WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    private static FormUrlEncodedContent Form(params (string Field, string Value)[] fields) =>
        new([new("id", Guid.NewGuid().ToString()), .. fields.Select(f => new KeyValuePair<string, string>(f.Field, f.Value))]);

    private static string Address(TestWorld world) => $"/t/{world.One.RoomCodes[0].Code}";

    private static Task<HttpResponseMessage> PostAsync(HttpClient client, TestWorld world, Dictionary<string, string> fields) =>
        client.PostAsync(Address(world), new FormUrlEncodedContent(fields));
}
