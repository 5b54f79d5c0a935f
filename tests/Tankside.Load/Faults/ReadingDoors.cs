using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests;
using Tankside.Storage;

namespace Tankside.Load.Faults;

/// <summary>Every way in which readings come.</summary>
public static class ReadingDoors
{
    private const int BatchSize = 40, DaysOfWeek = 5;

    public static Door ApiBatch { get; } = new("API batch", (place, _) => Task.FromResult(Api(place, BatchSize)));

    public static Door ApiReading { get; } = new("API reading", (place, _) => Task.FromResult(Api(place, 1)));

    public static Door ClassForm { get; } = new("class form", (place, number) =>
    {
        var id = Guid.NewGuid();
        return Task.FromResult(new Act(
            () => Sending.SendAsync(() => place.Nobody.PostAsync($"/t/{TankOf(place, number).Label}", new FormUrlEncodedContent(Fields(id))), HttpStatusCode.SeeOther),
            db => LookAsync(db, [id])));
    });

    /// <summary>As the outbox of a class page sends what it kept.</summary>
    public static Door Outbox { get; } = new("class outbox", (place, number) =>
    {
        var id = Guid.NewGuid();
        return Task.FromResult(new Act(
            () => Sending.SendAsync(
                () => place.Nobody.SendAsync(new HttpRequestMessage(HttpMethod.Post, $"/t/{TankOf(place, number).Label}")
                {
                    Content = new FormUrlEncodedContent(Fields(id)),
                    Headers = { { ClassMark.Outbox, "1" } },
                }),
                answer => Task.FromResult(answer.StatusCode == HttpStatusCode.OK && answer.Headers.Contains(ClassMark.Next))),
            db => LookAsync(db, [id])));
    });

    public static Door SignedIn { get; } = new("signed-in form", async (place, number) =>
    {
        var id = Guid.NewGuid();
        var send = await place.Coordinator.OpenFormAsync($"/tanks/{TankOf(place, number).Code}/reading", Fields(id));
        return new Act(() => Sending.SendAsync(send, HttpStatusCode.SeeOther), db => LookAsync(db, [id]));
    });

    /// <summary>Last week's days; all of them are one.</summary>
    public static Door Week { get; } = new("week", async (place, number) =>
    {
        var ids = Enumerable.Range(0, DaysOfWeek).Select(_ => Guid.NewGuid()).ToList();
        var day = DateOnly.FromDateTime(DateTime.UtcNow).AddDays(-7);
        var fields = new Dictionary<string, string>();
        foreach (var (i, id) in ids.Index())
        {
            fields[$"id.{i}"] = id.ToString();
            fields[$"time.{i}"] = string.Create(CultureInfo.InvariantCulture, $"8:{number % 60:00}");
            fields[$"water.{i}"] = "51";
            fields[$"unit.{i}"] = "F";
            fields[$"ok.{i}"] = "true";
        }

        var send = await place.Coordinator.OpenFormAsync(
            $"/tanks/{TankOf(place, number).Code}/reading/week?of={day.AddDays(-(((int)day.DayOfWeek + 6) % 7)):yyyy-MM-dd}", fields);
        return new Act(
            () => Sending.SendAsync(send, async answer => answer.StatusCode == HttpStatusCode.OK && (await answer.Content.ReadAsStringAsync()).Contains("5 days are saved", StringComparison.Ordinal)),
            db => LookAsync(db, ids));
    });

    public static (Guid Id, string Code, string Label) TankOf(FaultPlace place, int number) => place.Tanks[number % place.Tanks.Count];

    /// <summary>Each of these readings counted one dead egg: one line in the ledger each.</summary>
    private static Act Api(FaultPlace place, int size)
    {
        var ids = Enumerable.Range(0, size).Select(_ => Guid.NewGuid()).ToList();
        var from = DateTime.UtcNow.AddHours(-1);
        var body = JsonSerializer.Serialize(new
        {
            readings = ids.Select((id, i) => new
            {
                id,
                tank = TankOf(place, i).Code,
                at = from.AddMinutes(i).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture),
                moving = true,
                deadEggs = 1,
            }),
        });
        return new Act(
            () => Sending.SendAsync(() => place.Logger.PostAsync("/api/v1/readings", new StringContent(body, null, "application/json")), async answer =>
                answer.StatusCode == HttpStatusCode.OK && await answer.Content.ReadFromJsonAsync<JsonElement>() is var counts
                && counts.GetProperty("accepted").GetInt32() + counts.GetProperty("duplicates").GetInt32() == size),
            async db =>
            {
                var lines = await db.Ledger.Where(e => e.Reading != null && ids.Contains(e.Reading.Value)).Select(e => e.Reading!.Value).ToListAsync();
                return (await LookAsync(db, ids), lines.Count) switch
                {
                    (Stands.NotThere, 0) => Stands.NotThere,
                    (Stands.Once, var n) when n == size => Stands.Once,
                    (Stands.Twice, _) => Stands.Twice,
                    (_, var n) when n > size => Stands.Twice,
                    _ => Stands.Half,
                };
            });
    }

    private static async Task<Stands> LookAsync(HatcheryDb db, IReadOnlyList<Guid> ids)
    {
        var found = await db.Readings.Where(r => ids.Contains(r.SenderId)).Select(r => r.SenderId).ToListAsync();
        return found.Count > found.Distinct().Count() ? Stands.Twice
            : found.Count == 0 ? Stands.NotThere
            : found.Count == ids.Count ? Stands.Once
            : Stands.Half;
    }

    private static Dictionary<string, string> Fields(Guid id) => new()
    {
        ["id"] = id.ToString(),
        ["water"] = "51",
        ["unit"] = "F",
        ["moving"] = "true",
        ["bubbles"] = "true",
        ["levelOk"] = "true",
        ["clear"] = "true",
    };
}
