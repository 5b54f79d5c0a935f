using System.Collections.Concurrent;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Time.Testing;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;
using Xunit.Abstractions;

namespace Tankside.Process.Tests;

/// <summary>The primary dies and its replica takes its place, while loggers send and a portal serves that nobody starts again.</summary>
public class FailoverTests(ITestOutputHelper output)
{
    private const string Database = "tankside";

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    private readonly TestWorld world = new();

    [PairFact]
    public async Task What_was_accepted_outlives_the_primary_once_and_the_portal_finds_the_next_by_itself()
    {
        using var pair = await PostgresPair.StartAsync();
        await SeedAsync(pair);
        using var installation = Installation.On(pair.ChoiceOf(Database));
        installation.Settings["Tankside__ReadFrom"] = "Replica";
        using var portal = await installation.ServeAsync();
        var accepted = new ConcurrentBag<Guid>();
        var begun = new ConcurrentBag<Guid>();
        var refusals = new ConcurrentBag<HttpStatusCode>();
        using var enough = new CancellationTokenSource();
        var loggers = Enumerable.Range(0, 4).Select(_ => Task.Run(() => SendAsync(portal, begun, accepted, refusals, enough.Token))).ToList();

        await AcceptedAsync(accepted, 20);
        pair.KillPrimary();
        pair.Promote();
        await AcceptedAsync(accepted, accepted.Count + 20);
        await enough.CancelAsync();
        await Task.WhenAll(loggers);

        output.WriteLine($"{accepted.Count} of {begun.Count} accepted, {refusals.Count} refused on the way");
        Assert.All(refusals, status => Assert.Equal(HttpStatusCode.ServiceUnavailable, status));
        await using var db = TestDatabase.Open(pair.PrimaryOf(Database));
        var stored = await db.Readings.Where(r => r.Source == ReadingSource.Logger).Select(r => r.SenderId).ToListAsync();
        Assert.Equal(stored.Count, stored.Distinct().Count());
        Assert.Empty(accepted.Except(stored));
        Assert.Empty(stored.Except(begun));
        await TellsAsync(portal);
        var doctor = await installation.RunAsync("doctor");
        Assert.Single(doctor.Lines, l => l.StartsWith("wrong  database hosts:", StringComparison.Ordinal) && l.Contains("does not answer", StringComparison.Ordinal) && l.Contains("is the primary", StringComparison.Ordinal));
    }

    [PairFact]
    public async Task Long_reading_goes_to_a_replica_that_has_everything_and_else_to_the_primary()
    {
        using var pair = await PostgresPair.StartAsync();
        await pair.CreateAsync(Database);
        await using var written = TestDatabase.Open(pair.PrimaryOf(Database));
        await written.Database.ExecuteSqlAsync($"CREATE TABLE said (word text)");
        var choice = pair.ChoiceOf(Database) with { ConnectionString = SeveralHosts.Primary(pair.ChoiceOf(Database).ConnectionString) };
        var replica = new Replica(new Contexts(choice), choice, ReadFrom.Replica, TimeProvider.System);

        await written.Database.ExecuteSqlAsync($"INSERT INTO said VALUES ('first')");
        Assert.Equal((true, "first"), await LastAsync(replica));

        await pair.HoldReplicaAsync(held: true);
        await written.Database.ExecuteSqlAsync($"INSERT INTO said VALUES ('second')");
        Assert.Equal((false, "second"), await LastAsync(replica));

        await pair.HoldReplicaAsync(held: false);
        Assert.Equal((true, "second"), await LastAsync(replica));
    }

    [PairFact]
    public async Task A_replica_is_late_by_the_time_since_what_it_has_not_carried_out_was_written()
    {
        using var pair = await PostgresPair.StartAsync();
        await pair.CreateAsync(Database);
        await using var written = TestDatabase.Open(pair.PrimaryOf(Database));
        await written.Database.ExecuteSqlAsync($"CREATE TABLE said (word text)");
        var time = new FakeTimeProvider();
        using var check = new ReplicaCheck(pair.ChoiceOf(Database), time);

        await pair.HoldReplicaAsync(held: true);
        await written.Database.ExecuteSqlAsync($"INSERT INTO said VALUES ('first')");
        Assert.Equal(HealthStatus.Healthy, (await LookAsync()).Status);
        time.Advance(TimeSpan.FromSeconds(61));
        var late = await LookAsync();
        Assert.Equal(HealthStatus.Degraded, late.Status);
        Assert.StartsWith("1 of 1 replicas answer, the slowest is 61 s and ", late.Description, StringComparison.Ordinal);

        await pair.HoldReplicaAsync(held: false);
        var far = DateTime.UtcNow + Patience;
        for (time.Advance(TimeSpan.FromSeconds(6)); (await LookAsync()).Status != HealthStatus.Healthy; time.Advance(TimeSpan.FromSeconds(6)))
        {
            Assert.True(DateTime.UtcNow < far, "The replica is late for ever.");
            await Task.Delay(20);
        }

        pair.KillPrimary();
        time.Advance(TimeSpan.FromSeconds(6));
        Assert.Equal("no host is the primary", (await LookAsync()).Description);
        pair.Promote();
        time.Advance(TimeSpan.FromSeconds(6));
        var alone = await LookAsync();
        Assert.Equal((HealthStatus.Degraded, "0 of 1 replicas answer, the slowest is 0 s and 0 KB behind"), (alone.Status, alone.Description));

        Task<HealthCheckResult> LookAsync() => check.CheckHealthAsync(new HealthCheckContext(), CancellationToken.None);
    }

    /// <summary>Whether a replica was read, and the last word that it had.</summary>
    private static async Task<(bool IsReplica, string Word)> LastAsync(Replica replica)
    {
        await using var db = await replica.OpenAsync(CancellationToken.None);
        return (await db.Database.SqlQuery<bool>($"SELECT pg_is_in_recovery() AS \"Value\"").SingleAsync(),
            await db.Database.SqlQuery<string>($"SELECT max(word) AS \"Value\" FROM said").SingleAsync());
    }

    private sealed class Contexts(DatabaseChoice choice) : IDbContextFactory<HatcheryDb>
    {
        public HatcheryDb CreateDbContext() => TestDatabase.Open(choice);
    }

    /// <summary>Sends one reading after the other, and each again until it is accepted.</summary>
    private async Task SendAsync(
        ServedPortal portal, ConcurrentBag<Guid> begun, ConcurrentBag<Guid> accepted, ConcurrentBag<HttpStatusCode> refusals, CancellationToken enough)
    {
        for (var minute = 1; !enough.IsCancellationRequested; minute++)
        {
            var id = Guid.NewGuid();
            begun.Add(id);
            var body = new { readings = new[] { new { id, tank = world.One.Tanks[0].Code, at = DateTime.UtcNow.AddDays(-1), waterC = 10.4, note = $"{minute}" } } };
            for (; ; )
            {
                using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/readings") { Content = JsonContent.Create(body) };
                request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", world.One.LoggerKey);
                using var answer = await portal.Client.SendAsync(request, CancellationToken.None);
                if (answer.StatusCode == HttpStatusCode.OK)
                {
                    var counts = await answer.Content.ReadFromJsonAsync<JsonElement>(CancellationToken.None);
                    Assert.Equal(1, counts.GetProperty("accepted").GetInt32() + counts.GetProperty("duplicates").GetInt32());
                    accepted.Add(id);
                    break;
                }

                refusals.Add(answer.StatusCode);
                await Task.Delay(50, CancellationToken.None);
            }
        }
    }

    private static async Task AcceptedAsync(ConcurrentBag<Guid> accepted, int count)
    {
        for (var deadline = DateTime.UtcNow + Patience; accepted.Count < count; await Task.Delay(20))
        {
            Assert.True(DateTime.UtcNow < deadline, $"Only {accepted.Count} of {count} were accepted in time.");
        }
    }

    /// <summary>Long reading too goes to what is the primary now; there is no replica any more.</summary>
    private async Task TellsAsync(ServedPortal portal)
    {
        Assert.Equal(HttpStatusCode.OK, (await portal.Client.GetAsync("/health/ready")).StatusCode);
        using var request = new HttpRequestMessage(HttpMethod.Get, $"/api/v1/seasons/{world.One.Season.Name}/totals");
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", world.One.CoordinatorKey);
        Assert.Equal(HttpStatusCode.OK, (await portal.Client.SendAsync(request)).StatusCode);
    }

    private async Task SeedAsync(PostgresPair pair)
    {
        await pair.CreateAsync(Database);
        await using var db = TestDatabase.Open(pair.PrimaryOf(Database));
        await db.Database.MigrateAsync();
        world.AddTo(db);
        await db.SaveChangesAsync();
    }
}
