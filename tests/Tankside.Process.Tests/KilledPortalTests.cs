using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;
using Xunit.Abstractions;

namespace Tankside.Process.Tests;

/// <summary>The portal dies in the middle of its work, as in a power cut. What it answered as accepted is there, once.</summary>
public class KilledPortalTests(ITestOutputHelper output)
{
    private const int Rounds = 3;

    [Theory, BothDatabases]
    public async Task What_was_answered_as_accepted_outlives_a_killed_portal_and_nothing_is_there_twice(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database);
        (await installation.RunAsync("demo")).Good();
        var key = (await installation.RunAsync("key", "new", "--role", "logger", "--tanks", "all")).Good().Output.Trim();
        var loggers = new LoggerStream(key);

        for (var round = 0; round < Rounds; round++)
        {
            using var portal = await installation.ServeAsync();
            await loggers.SendUntilKilledAsync(portal);
        }

        output.WriteLine($"{loggers.Batches.Count} batches begun, {loggers.Answered.Count} answered before the portal was killed");
        using var restarted = await installation.ServeAsync();
        await AssertStoredAsync(database, loggers);

        var (accepted, duplicates) = await loggers.SendAllAgainAsync(restarted);

        Assert.Equal(loggers.Batches.Count * LoggerStream.Size, accepted + duplicates);
        Assert.True(duplicates >= loggers.Answered.Count * LoggerStream.Size);
        await AssertEachOnceAsync(database, loggers);
        await AssertAllJudgedAsync(database);
    }

    /// <summary>Every answered batch is whole; one without an answer is whole or not there at all.</summary>
    private static async Task AssertStoredAsync(TestDatabase database, LoggerStream loggers)
    {
        await using var db = database.CreateDbContext();
        var stored = (await db.Readings.Where(r => r.Source == ReadingSource.Logger).Select(r => r.SenderId).ToListAsync()).ToLookup(id => id);
        Assert.All(loggers.Answered.SelectMany(b => b.Ids), id => Assert.Single(stored[id]));
        Assert.All(loggers.Batches, batch => Assert.Contains(batch.Ids.Count(stored.Contains), new[] { 0, LoggerStream.Size }));
    }

    private static async Task AssertEachOnceAsync(TestDatabase database, LoggerStream loggers)
    {
        await using var db = database.CreateDbContext();
        var sent = loggers.Batches.SelectMany(b => b.Ids).Order().ToList();
        var stored = await db.Readings.Where(r => r.Source == ReadingSource.Logger).Select(r => r.SenderId).ToListAsync();
        Assert.Equal(sent, stored.Order());

        // Each of these readings counted one dead egg: one line in the ledger each, no more.
        var lines = await db.Ledger.Where(e => e.Reading != null).Select(e => e.Reading!.Value).ToListAsync();
        Assert.Equal(sent, lines.Where(sent.ToHashSet().Contains).Order());
    }

    /// <summary>A fact stored just before the kill waits in the database for the next portal's judge.</summary>
    private static async Task AssertAllJudgedAsync(TestDatabase database)
    {
        var deadline = DateTime.UtcNow.AddSeconds(30);
        for (; ; )
        {
            await using var db = database.CreateDbContext();
            var waiting = await db.UnjudgedFacts.CountAsync();
            if (waiting == 0)
            {
                return;
            }

            Assert.True(DateTime.UtcNow < deadline, $"{waiting} facts wait for a judge.");
            await Task.Delay(50);
        }
    }
}
