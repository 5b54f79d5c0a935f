using System.Net;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What a program learns about tanks over HTTP: the numbers of the rules, and only of the key's own tanks.</summary>
public class TanksApiTests
{
    [Theory, BothDatabases]
    public async Task A_coordinators_key_lists_its_programmes_tanks_with_their_last_reading(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(
            Sent.Water(world.One.Tanks[0], host.Now.AddHours(-3), 12.9),
            Sent.Seen(world.One.Tanks[0], host.Now.AddHours(-2), new Observation { DeadEggs = 3, Hatched = Share.Half }));
        await host.JudgeAsync();

        var tanks = await TanksAsync(host, world.One.CoordinatorKey);

        Assert.Equal(["A001", "A002"], tanks.Select(t => Text(t, "code")));
        var (read, unread) = (tanks[0], tanks[1]);
        Assert.Equal(("Birch Lane School", "Room 1"), (Text(read, "school"), Text(read, "classroom")));
        Assert.Equal(("L1", "rainbow-trout", "alevin"), (Text(read, "lot"), Text(read, "species"), Text(read, "stage")));
        Assert.Equal((145, 12.9, 10.5), (read.GetProperty("fish").GetInt32(), read.GetProperty("lastWaterC").GetDouble(), read.GetProperty("setPointC").GetDouble()));
        Assert.Equal("2027-02-03T06:15:00-07:00", Text(read, "lastReadingAt"));
        Assert.Equal(["warm"], read.GetProperty("openFlags").EnumerateArray().Select(k => k.GetString()!));
        Assert.Equal((JsonValueKind.Null, JsonValueKind.Null), (unread.GetProperty("lastReadingAt").ValueKind, unread.GetProperty("lastWaterC").ValueKind));
        Assert.Equal(148, unread.GetProperty("fish").GetInt32());
    }

    [Theory, BothDatabases]
    public async Task A_tank_without_eggs_has_neither_lot_nor_stage(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var empty = NewTank(world);
        await host.SeedAsync(db => db.Add(empty));

        var tank = Assert.Single(await TanksAsync(host, world.One.CoordinatorKey), t => Text(t, "code") == "A003");

        Assert.Equal(0, tank.GetProperty("fish").GetInt32());
        Assert.All(["lot", "species", "stage"], name => Assert.Equal(JsonValueKind.Null, tank.GetProperty(name).ValueKind));
    }

    [Theory, BothDatabases]
    public async Task A_loggers_key_is_for_readings_and_a_stranger_has_none(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        Assert.Equal(HttpStatusCode.Forbidden, (await host.ClientWithKey(world.One.LoggerKey).GetAsync("/api/v1/tanks")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Anonymous().GetAsync("/api/v1/tanks")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await host.Anonymous().GetAsync("/api/v1/tanks/A001/forecast")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_key_finds_no_tank_of_another_programme_and_none_it_is_not_bound_to(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        Assert.Equal(["B001", "B002"], (await TanksAsync(host, world.Two.CoordinatorKey)).Select(t => Text(t, "code")));
        foreach (var (key, code) in new[] { (world.Two.CoordinatorKey, "A001"), (world.One.LoggerKey, "A002"), (world.One.CoordinatorKey, "A999") })
        {
            var answer = await host.ClientWithKey(key).GetAsync($"/api/v1/tanks/{code}/forecast");
            Assert.Equal((HttpStatusCode.NotFound, "application/problem+json"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
        }
    }

    [Theory, BothDatabases]
    public async Task The_forecast_gives_the_numbers_of_the_rules(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync([.. Enumerable.Range(1, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10 + (d % 3 * 0.2)))]);
        await host.JudgeAsync();

        var forecast = await ForecastAsync(host, world.One.LoggerKey, "A001");

        var development = await DevelopmentAsync(host, world);
        Assert.Equal(("A001", "L1", "rainbow-trout", "alevin"), (Text(forecast, "tank"), Text(forecast, "lot"), Text(forecast, "species"), Text(forecast, "stage")));
        Assert.Equal(148, forecast.GetProperty("fish").GetInt32());
        var units = forecast.GetProperty("thermalUnits");
        Assert.Equal(development.ThermalUnits.CelsiusDays, units.GetProperty("celsiusDays").GetDouble(), 0.0501);
        Assert.Equal(development.ThermalUnits.FahrenheitDays, units.GetProperty("fahrenheitDays").GetDouble(), 0.0501);
        Assert.Equal("2026-12-20", Text(units, "since"));
        AssertSame(development.Hatch!, forecast.GetProperty("hatch"));
        AssertSame(development.SwimUp!, forecast.GetProperty("swimUp"));
        Assert.Equal(forecast.GetProperty("swimUp").GetRawText(), forecast.GetProperty("firstFeeding").GetRawText());
        Assert.Equal(JsonValueKind.Null, forecast.GetProperty("hoursToCritical").ValueKind);
        Assert.Equal(JsonValueKind.Null, forecast.GetProperty("whyNoForecast").ValueKind);
    }

    [Theory, BothDatabases]
    public async Task A_warming_tank_has_its_hours_and_the_limit_they_are_counted_to(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddHours(-3), 10.5), Sent.Water(world.One.Tanks[0], host.Now.AddHours(-1), 12.5));
        await host.JudgeAsync();

        var hours = (await ForecastAsync(host, world.One.LoggerKey, "A001")).GetProperty("hoursToCritical");

        var flag = Assert.Single(await host.FlagsAsync(FlagKind.WarmingFast));
        var left = flag.Hazard.HoursLeftAt(host.Now)!.Value;
        Assert.Equal(15, hours.GetProperty("limitC").GetDouble());
        Assert.Equal(
            (Math.Round(left.Low, 2), Math.Round(left.Mid, 2), Math.Round(left.High, 2)),
            (hours.GetProperty("low").GetDouble(), hours.GetProperty("mid").GetDouble(), hours.GetProperty("high").GetDouble()));
        Assert.True(left.Low > 0, "The limit should lie ahead.");
    }

    [Theory, BothDatabases]
    public async Task Without_a_model_or_without_eggs_the_forecast_says_why(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Add(NewTank(world)));
        await using (var db = host.OpenDb())
        {
            (await db.EggLots.SingleAsync(l => l.Id == world.One.Lot.Id)).Species = Species.CutthroatTrout;
            await db.SaveChangesAsync();
        }

        var cutthroat = await ForecastAsync(host, world.One.CoordinatorKey, "A001");
        var empty = await ForecastAsync(host, world.One.CoordinatorKey, "A003");

        Assert.Equal(JsonValueKind.Null, cutthroat.GetProperty("hatch").ValueKind);
        Assert.Contains("cutthroat", Text(cutthroat, "whyNoForecast"), StringComparison.Ordinal);
        Assert.True(cutthroat.GetProperty("thermalUnits").GetProperty("celsiusDays").GetDouble() > 200);
        Assert.Equal(JsonValueKind.Null, empty.GetProperty("thermalUnits").ValueKind);
        Assert.Equal("No eggs have come to this tank.", Text(empty, "whyNoForecast"));
    }

    private static void AssertSame(StageForecast rule, JsonElement told)
    {
        Assert.Equal(
            [rule.Mid, rule.Low80, rule.High80, rule.Low95, rule.High95],
            new[] { "mid", "low80", "high80", "low95", "high95" }.Select(n => DateOnly.ParseExact(Text(told, n), "yyyy-MM-dd", null)));
        Assert.Equal(rule.Fraction, told.GetProperty("fraction").GetDouble(), 0.0001);
        Assert.Equal((rule.InRange, rule.Model.Name, rule.Model.Source), (told.GetProperty("inRange").GetBoolean(), Text(told, "model"), Text(told, "source")));
        var parts = told.GetProperty("parts").EnumerateArray().ToDictionary(p => Text(p, "name"), p => p.GetProperty("sdDays").GetDouble());
        Assert.Equal(["model", "start", "spawning", "thermometer", "gaps", "future"], parts.Keys);
        Assert.Equal(rule.Parts.Single(p => p.Name == ForecastPartName.Gaps).SdDays, parts["gaps"], 0.01);
        Assert.Equal(rule.SdDays, Math.Sqrt(parts.Values.Sum(sd => sd * sd)), 0.03);
    }

    private static async Task<DevelopmentNow> DevelopmentAsync(PortalHost host, TestWorld world)
    {
        await using var db = host.OpenDb();
        var record = Assert.Single(await TankRecords.LoadAsync(db, [world.One.Tanks[0].Id], host.Now, CancellationToken.None));
        return TankDevelopment.On(new DateOnly(2027, 2, 3), record.Lot!, record.Days, record.Tank.SetPointC);
    }

    private static Hatchery.Places.Tank NewTank(TestWorld world) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = world.One.Programme.Id,
        ClassroomId = world.One.Rooms[0].Id,
        Code = "A003",
        Litres = 208,
        SetPointC = 10.5,
    };

    private static async Task<List<JsonElement>> TanksAsync(PortalHost host, string key) =>
        [.. (await JsonAsync(host, key, "/api/v1/tanks")).GetProperty("tanks").EnumerateArray()];

    private static Task<JsonElement> ForecastAsync(PortalHost host, string key, string code) => JsonAsync(host, key, $"/api/v1/tanks/{code}/forecast");

    private static async Task<JsonElement> JsonAsync(PortalHost host, string key, string address)
    {
        var answer = await host.ClientWithKey(key).GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
    }

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;
}
