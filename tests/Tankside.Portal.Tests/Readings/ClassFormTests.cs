using System.Net;
using System.Text;
using Microsoft.EntityFrameworkCore;
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
        Assert.DoesNotContain(fields["id"], page, StringComparison.Ordinal);
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

    private static string Address(TestWorld world) => $"/t/{world.One.RoomCodes[0].Code}";

    private static Task<HttpResponseMessage> PostAsync(HttpClient client, TestWorld world, Dictionary<string, string> fields) =>
        client.PostAsync(Address(world), new FormUrlEncodedContent(fields));
}
