using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Rows that are saved many at once are the same rows.</summary>
public class NewRowsTests
{
    [Theory, BothDatabases]
    public async Task Many_at_once_come_back_as_each_by_itself_and_with_what_else_the_context_holds(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var readings = SampleRows.Of(world.One).OfType<Reading>().ToList();
        UnjudgedFact Fact() => new() { TankId = world.One.Tanks[0].Id, At = SampleRows.At };
        await using (var db = database.CreateDbContext())
        {
            db.Add(Line(world));
            await db.SaveWithAsync([readings, [Fact(), Fact()]], CancellationToken.None);
        }

        await using var reader = database.CreateDbContext();
        var read = await reader.Readings.ToListAsync();
        Assert.Equal(readings.Select(Text).Order(), read.Select(Text).Order());
        Assert.Equal([SampleRows.At, SampleRows.At], await reader.UnjudgedFacts.Select(f => f.At).ToListAsync());
        Assert.Equal(1, await reader.Ledger.CountAsync(e => e.Note == LineNote));
    }

    [Theory, BothDatabases]
    public async Task Hundreds_come_back_the_same_with_rows_that_refer_to_them(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var samples = SampleRows.Of(world.One);
        List<Reading> readings = [.. samples.OfType<Reading>(), .. Enumerable.Range(0, 300).Select(i => Numbered(world, i))];
        List<TankDay> days = [.. Enumerable.Range(0, 90).Select(i => new TankDay { TankId = world.One.Tanks[0].Id, Day = new DateOnly(2026, 10, 1).AddDays(i), Hatched = i % 6 == 5 ? null : (Share)(i % 6), Swimming = i % 2 == 0 ? null : Share.Some, MeanC = i % 3 == 0 ? null : i / 7.0, MinC = i, MaxC = i + 0.5, Readings = i, WaterReadings = i + 1, FirstAt = SampleRows.At.AddDays(i), LastAt = SampleRows.At.AddDays(i + 1), SquaredGapHours = i * 1.5, DeadEggs = i % 4 == 0 ? null : i, DeadAlevins = i % 7, DeadFry = i % 5 == 0 ? null : 1 })];
        List<DayFacts> facts = [.. days.Select(d => new DayFacts { TankId = d.TankId, Day = d.Day, Packed = [1, (byte)d.Day.Day] })];
        List<Receipt> receipts = [.. samples.OfType<Receipt>().Where(r => r.StopId is null)];
        await using (var db = database.CreateDbContext())
        {
            await db.SaveWithAsync([readings, receipts, days, facts], CancellationToken.None);
        }

        await using var reader = database.CreateDbContext();
        Assert.Equal(readings.Select(Text).Order(), (await reader.Readings.ToListAsync()).Select(Text).Order());
        Assert.Equal(days.Select(Json).Order(), (await reader.TankDays.ToListAsync()).Select(Json).Order());
        Assert.Equal(facts.Select(Json).Order(), (await reader.DayFacts.ToListAsync()).Select(Json).Order());
        Assert.Equal(receipts.Select(Json).Order(), (await reader.Receipts.Where(r => receipts.Select(x => x.Id).Contains(r.Id)).ToListAsync()).Select(Json).Order());
        Assert.True(readings.Count > 300 && receipts.Count > 0);
    }

    private static string Json(object row) => JsonSerializer.Serialize(row);

    private static Reading Numbered(TestWorld world, int i) => new()
    {
        SenderId = Guid.NewGuid(),
        TankId = world.One.Tanks[i % 2].Id,
        At = SampleRows.At.AddMinutes(i),
        ReceivedAt = SampleRows.At.AddMinutes(i + 1),
        Source = ReadingSource.Logger,
        Seen = new Observation { WaterC = i % 4 == 0 ? null : 9 + (i / 100.0), Note = i % 50 == 0 ? $"note {i}" : null },
        ContentHash = "0",
    };

    [Theory, BothDatabases]
    public async Task One_that_is_there_already_lets_none_in(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var readings = SampleRows.Of(world.One).OfType<Reading>().ToList();
        await using (var db = database.CreateDbContext())
        {
            await db.SaveWithAsync([readings[..1], []], CancellationToken.None);
        }

        await using (var db = database.CreateDbContext())
        {
            db.Add(Line(world));
            var refused = await Assert.ThrowsAsync<DbUpdateException>(
                () => db.SaveWithAsync([[readings[1], Again(readings[0])], [new UnjudgedFact { TankId = world.One.Tanks[0].Id, At = SampleRows.At }]], CancellationToken.None));
            Assert.True(refused.IsUniqueViolation());
        }

        await using var reader = database.CreateDbContext();
        Assert.Equal((1, 0, 0), (await reader.Readings.CountAsync(), await reader.UnjudgedFacts.CountAsync(), await reader.Ledger.CountAsync(e => e.Note == LineNote)));
    }

    [Theory, BothDatabases]
    public async Task What_the_context_holds_is_saved_though_no_row_is_new(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        await using (var db = database.CreateDbContext())
        {
            db.Add(SampleRows.NewFlag(world.One, FlagKind.Cold, SampleEvidence.All[0]));
            await db.SaveWithAsync([[], []], CancellationToken.None);
        }

        await using var reader = database.CreateDbContext();
        Assert.Equal(1, await reader.Flags.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Readings_are_found_by_tank_and_id_together(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var readings = SampleRows.Of(world.One).OfType<Reading>().ToList();
        var (here, there) = (readings[0], world.One.Tanks[1].Id);
        await using (var db = database.CreateDbContext())
        {
            await db.SaveWithAsync([readings], CancellationToken.None);
        }

        await using var reader = database.CreateDbContext();
        var found = await reader.ReadingsSentAs([(here.TankId, here.SenderId), (here.TankId, Guid.NewGuid())]).ToListAsync();
        Assert.Equal([here.SenderId], found.Select(r => r.SenderId));
        Assert.Empty(await reader.ReadingsSentAs([(there, here.SenderId)]).ToListAsync());
        Assert.Empty(await reader.ReadingsSentAs([]).ToListAsync());
    }

    private const string LineNote = "beside the rows";

    private static LedgerEntry Line(TestWorld world) => new()
    {
        SeasonId = world.One.Season.Id,
        TankId = world.One.Tanks[0].Id,
        Kind = LedgerKind.Sampled,
        Count = 1,
        At = SampleRows.At,
        EnteredAt = SampleRows.At,
        Note = LineNote,
    };

    private static Reading Again(Reading r) => new()
    {
        SenderId = r.SenderId,
        TankId = r.TankId,
        At = r.At,
        ReceivedAt = r.ReceivedAt,
        Seen = r.Seen,
        ContentHash = r.ContentHash,
    };

    /// <summary>All but the key, which is the database's own.</summary>
    private static string Text(Reading row)
    {
        var text = JsonNode.Parse(RoundTripTests.Text(row))!.AsObject();
        text.Remove(nameof(Reading.Id));
        return text.ToJsonString();
    }
}
