using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>Forms that arrive while the database is busy, and are stored together when it is not.</summary>
public class SentTogetherTests
{
    [Theory, BothDatabases]
    public async Task A_reading_that_waited_since_yesterday_does_not_blunt_the_judgement_of_those_it_arrives_with(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (first, fresh, late) = (world.One.RoomCodes[1].Code, world.One.RoomCodes[0].Code, world.One.RoomCodes[1].Code);
        // Beside the reading of five minutes ago 61 °F cannot be; beside the one of yesterday it can.
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddHours(-24), "58", 58, TemperatureUnit.F));
        await host.AcceptAsync(Sent.Typed(world.One.Tanks[0], host.Now.AddMinutes(-5), "50", 50, TemperatureUnit.F));
        List<Task<string>> sent;
        await using (var db = host.OpenDb())
        {
            await using var busy = await db.Database.BeginTransactionAsync();
            await HoldReadingsAsync(db, kind);
            sent = [PostAsync(host, first, "51", TimeSpan.Zero)];
            await Task.Delay(200); // the first is on its way; the others find the hand taken, in whichever order they come
            sent.Add(PostAsync(host, fresh, "61", TimeSpan.Zero));
            sent.Add(PostAsync(host, late, "51", TimeSpan.FromHours(20)));
            await Task.Delay(500); // long enough that one that did not wait would have been answered; a slower machine only makes the test easier
            Assert.DoesNotContain(sent, s => s.IsCompleted);
            await busy.CommitAsync();
        }

        var answers = await Task.WhenAll(sent);
        Assert.Equal(["sent", "ask", "sent"], answers);
    }

    /// <summary>A writer that takes its time; readers pass.</summary>
    private static Task HoldReadingsAsync(HatcheryDb db, DatabaseKind kind) => kind switch
    {
        DatabaseKind.Sqlite => db.Database.ExecuteSqlRawAsync("DELETE FROM unjudged_facts WHERE id < 0"),
        DatabaseKind.PostgreSQL => db.Database.ExecuteSqlRawAsync("LOCK TABLE readings IN EXCLUSIVE MODE"),
    };

    private static async Task<string> PostAsync(PortalHost host, string code, string water, TimeSpan waited)
    {
        var typedAt = 1_000_000L;
        var answer = await host.Anonymous().PostAsync($"/t/{code}", new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["id"] = Guid.NewGuid().ToString(),
            ["water"] = water,
            ["unit"] = "F",
            ["typedAt"] = typedAt.ToString(CultureInfo.InvariantCulture),
            ["sentAt"] = (typedAt + (long)waited.TotalMilliseconds).ToString(CultureInfo.InvariantCulture),
            ["again"] = "1",
        }));
        return answer.Headers.Location is { } next ? next.ToString().Split('?')[1].Split('=')[0] : $"{(int)answer.StatusCode}";
    }
}
