using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>
/// The slips that people make with scales, digits and points, at every door where a person or a program gives a temperature. The tank read
/// 52 °F the day before. What is kept is what was typed, whatever is made of it.
/// </summary>
public class SlipTests
{
    private const string Believed = "believed", Asked = "asked", Refused = "refused";

    /// <summary>Typed text, scale, what becomes of it, and the °C understood: stored where it is believed, offered where it is asked.</summary>
    private static readonly (string Typed, TemperatureUnit Unit, string Fate, double? Celsius)[] Slips =
    [
        ("11", TemperatureUnit.C, Believed, 11), ("11.1", TemperatureUnit.C, Believed, 11.1), ("52", TemperatureUnit.C, Asked, 11.11),
        ("5.2", TemperatureUnit.C, Believed, 5.2), ("512", TemperatureUnit.C, Refused, null), ("111", TemperatureUnit.C, Refused, null),
        ("52,5", TemperatureUnit.C, Asked, 11.39), ("11,1", TemperatureUnit.C, Believed, 11.1), ("-1", TemperatureUnit.C, Asked, null),
        ("22", TemperatureUnit.C, Asked, null), ("27", TemperatureUnit.C, Asked, null), ("31.9", TemperatureUnit.C, Asked, null), ("32", TemperatureUnit.C, Asked, null),
        ("11", TemperatureUnit.F, Asked, 11), ("11.1", TemperatureUnit.F, Asked, 11.1), ("52", TemperatureUnit.F, Believed, 11.11),
        ("5.2", TemperatureUnit.F, Asked, 11.11), ("512", TemperatureUnit.F, Refused, null), ("111", TemperatureUnit.F, Asked, 11.1),
        ("52,5", TemperatureUnit.F, Believed, 11.39), ("-1", TemperatureUnit.F, Asked, null),
        ("22", TemperatureUnit.F, Asked, null), ("27", TemperatureUnit.F, Asked, null), ("31.9", TemperatureUnit.F, Asked, null),
    ];

    [Theory, BothDatabases]
    public async Task On_the_class_form_in_both_languages(DatabaseKind kind)
    {
        foreach (var language in new[] { "en", "es" })
        {
            var (host, world) = await WithYesterdayAsync(kind);
            await using var _ = host;
            foreach (var slip in Slips)
            {
                var id = Guid.NewGuid();
                var answer = await host.Anonymous().PostAsync($"/t/{world.One.RoomCodes[0].Code}?lang={language}", new FormUrlEncodedContent(new Dictionary<string, string>
                {
                    ["id"] = id.ToString(),
                    ["water"] = slip.Typed,
                    ["unit"] = slip.Unit.ToString(),
                }));
                if (slip.Fate == Refused)
                {
                    Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
                    Assert.Contains($"value=\"{slip.Typed}\"", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
                }
                else
                {
                    Assert.Contains(slip.Fate == Asked ? "?ask=" : "?sent=", answer.Headers.Location!.ToString(), StringComparison.Ordinal);
                    await AssertOfferedAsync(host, slip, answer.Headers.Location.ToString(), language);
                }

                await AssertKeptAsync(host, id, slip, slip.Typed);
                await ForgetAsync(host, id);
            }
        }
    }

    [Theory, BothDatabases]
    public async Task On_the_week_at_once(DatabaseKind kind)
    {
        var (host, world) = await WithYesterdayAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Teacher, world.One);
        foreach (var slip in Slips)
        {
            var (answer, id) = await WeekAtOnceTests.SendAsync(client, host, world, new() { ["water"] = slip.Typed, ["unit"] = slip.Unit.ToString() });

            Assert.Equal(slip.Fate == Refused ? HttpStatusCode.UnprocessableEntity : HttpStatusCode.OK, answer.StatusCode);
            await AssertKeptAsync(host, id, slip, slip.Typed);
            await ForgetAsync(host, id);
        }
    }

    [Theory, BothDatabases]
    public async Task On_the_api(DatabaseKind kind)
    {
        var (host, world) = await WithYesterdayAsync(kind);
        await using var _ = host;
        foreach (var slip in Slips.Where(s => !s.Typed.Contains(',', StringComparison.Ordinal)))
        {
            var id = Guid.NewGuid();
            var body = $$"""{"readings":[{"id":"{{id}}","tank":"A001","at":"{{host.Now:O}}","{{(slip.Unit == TemperatureUnit.C ? "waterC" : "waterF")}}":{{slip.Typed}}}]}""";
            using var content = new StringContent(body, Encoding.UTF8, "application/json");
            var answer = await (await host.ClientWithKey(world.One.LoggerKey).PostAsync("/api/v1/readings", content)).Content.ReadFromJsonAsync<JsonElement>();

            var (accepted, asked, rejected) = (answer.GetProperty("accepted").GetInt32(), answer.GetProperty("asked"), answer.GetProperty("rejected").GetArrayLength());
            Assert.Equal(
                $"{slip.Typed} {slip.Unit}: {slip.Fate}",
                $"{slip.Typed} {slip.Unit}: {(accepted == 1 ? Believed : asked.GetArrayLength() == 1 ? Asked : rejected == 1 ? Refused : "lost")}");
            if (slip is { Fate: Asked, Celsius: { } meant })
            {
                Assert.Equal(meant, asked[0].GetProperty("understood").GetDouble(), 0.06);
            }

            await AssertKeptAsync(host, id, slip, slip.Typed);
            await ForgetAsync(host, id);
        }
    }

    [Fact]
    public async Task A_blank_form_is_asked_again_and_a_blank_temperature_beside_a_tick_is_no_temperature()
    {
        var (host, world) = await WithYesterdayAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var label = $"/t/{world.One.RoomCodes[0].Code}";

        var blank = await host.Anonymous().PostAsync(label, new FormUrlEncodedContent([new("water", " "), new("unit", "F")]));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, blank.StatusCode);
        await host.Anonymous().PostAsync(label, new FormUrlEncodedContent([new("water", " "), new("unit", "F"), new("moving", "true")]));

        await using var db = host.OpenDb();
        var stored = await db.Readings.SingleAsync(r => r.Source == ReadingSource.Class);
        Assert.Equal((null, null, true), (stored.Seen.WaterC, stored.TypedWater, stored.Seen.Moving));
    }

    private static async Task<(PortalHost Host, TestWorld World)> WithYesterdayAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddDays(-1), "52", 52, TemperatureUnit.F));
        return (host, world);
    }

    private static async Task AssertKeptAsync(PortalHost host, Guid id, (string Typed, TemperatureUnit Unit, string Fate, double? Celsius) slip, string typed)
    {
        await using var db = host.OpenDb();
        var stored = await db.Readings.AsNoTracking().SingleOrDefaultAsync(r => r.SenderId == id);
        var fate = stored?.State switch
        {
            null => Refused,
            ReadingState.Asked => Asked,
            _ => Believed,
        };
        Assert.Equal($"{slip.Typed} {slip.Unit}: {slip.Fate}", $"{slip.Typed} {slip.Unit}: {fate}");
        if (stored is not null)
        {
            Assert.Equal((typed, slip.Unit), (stored.TypedWater, stored.TypedUnit));
            Assert.Equal(slip.Fate == Believed ? slip.Celsius!.Value : Math.Round(WaterTemperature.ToC(Plain(typed), slip.Unit), 2), stored.Seen.WaterC!.Value, 0.006);
        }
    }

    /// <summary>The question offers what was probably meant, in the class's language.</summary>
    private static async Task AssertOfferedAsync(
        PortalHost host, (string Typed, TemperatureUnit Unit, string Fate, double? Celsius) slip, string address, string language)
    {
        if (slip.Fate != Asked)
        {
            return;
        }

        var page = WebUtility.HtmlDecode(await host.Anonymous().GetStringAsync(address));
        Assert.Contains($"{(language == "es" ? "Escribiste" : "You typed")} {slip.Typed} °{slip.Unit}", page, StringComparison.Ordinal);
        if (slip.Celsius is { } meant)
        {
            string[] offers = [Degrees(meant, TemperatureUnit.C), Degrees(meant, TemperatureUnit.F)];
            Assert.True(offers.Any(o => page.Contains($"<label for=\"understood\">{o}</label>", StringComparison.Ordinal)), $"{slip.Typed} {slip.Unit} in {language}: none of {string.Join(", ", offers)}");
        }
    }

    private static string Degrees(double celsius, TemperatureUnit unit) =>
        $"{WaterTemperature.FromC(celsius, unit).ToString("0.#", CultureInfo.InvariantCulture)} °{unit}";

    private static double Plain(string typed) => double.Parse(typed.Replace(',', '.'), CultureInfo.InvariantCulture);

    /// <summary>Each slip is judged against yesterday's 52 °F, not against the slip before it.</summary>
    private static async Task ForgetAsync(PortalHost host, Guid id)
    {
        await using var db = host.OpenDb();
        await db.Readings.Where(r => r.SenderId == id).ExecuteUpdateAsync(set => set.SetProperty(r => r.State, ReadingState.Withdrawn));
    }
}
