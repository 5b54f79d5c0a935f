using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Tankside.Hatchery.Readings;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>On PostgreSQL the readings lie season by season; whoever reads or writes them notices nothing.</summary>
public sealed class ReadingSeasonsTests : IAsyncLifetime
{
    private readonly TestWorld world = new();
    private TestDatabase database = null!;

    public async Task InitializeAsync()
    {
        if (Missing.Skips(PostgresServer.WhyUnavailable) is null)
        {
            database = await TestDatabase.CreateAsync(DatabaseKind.PostgreSQL);
            await using var db = database.CreateDbContext();
            world.One.AddTo(db);
            await db.SaveChangesAsync();
            await db.Readings.ExecuteDeleteAsync();
        }
    }

    public async Task DisposeAsync()
    {
        if (database is not null)
        {
            await database.DisposeAsync();
        }
    }

    [PostgresFact]
    public async Task Each_season_has_a_part_of_its_own_and_a_reading_of_any_time_is_taken()
    {
        await using var db = database.CreateDbContext();
        await ReadingSeasons.KeepAheadAsync(db, Utc(2061, 3, 1), CancellationToken.None);
        await ReadingSeasons.KeepAheadAsync(db, Utc(2061, 3, 2), CancellationToken.None);
        db.AddRange(New(Utc(2060, 8, 1)), New(Utc(2061, 7, 31).AddHours(23)), New(Utc(2061, 8, 1)), New(Utc(2064, 1, 1)), New(Utc(2015, 1, 1)));
        await db.SaveChangesAsync();

        Assert.Equal(2, await CountAsync(db, "readings_2060"));
        Assert.Equal(1, await CountAsync(db, "readings_2061"));
        Assert.Equal(1, await CountAsync(db, "readings_other"));
        Assert.Equal(1, await CountAsync(db, "readings_before"));
        Assert.Equal(5, (await db.Readings.Select(r => r.Id).ToListAsync()).Distinct().Count());

        // A season whose first readings came before its part stays where they lie.
        await ReadingSeasons.KeepAheadAsync(db, Utc(2063, 9, 1), CancellationToken.None);
        Assert.Equal(1, await CountAsync(db, "readings_other"));
        Assert.Equal(5, await db.Readings.CountAsync());
    }

    [PostgresFact]
    public async Task A_senders_id_is_taken_once_in_a_tank_and_the_stream_of_many_lands_in_the_seasons_too()
    {
        await using var db = database.CreateDbContext();
        await ReadingSeasons.KeepAheadAsync(db, Utc(2061, 3, 1), CancellationToken.None);
        var first = New(Utc(2061, 1, 1));
        db.Add(first);
        await db.SaveChangesAsync();
        await using (var second = database.CreateDbContext())
        {
            second.Add(New(Utc(2061, 1, 2), first.SenderId));
            Assert.True((await Assert.ThrowsAsync<DbUpdateException>(() => second.SaveChangesAsync())).IsUniqueViolation());
        }

        await using var many = database.CreateDbContext();
        List<Reading> rows = [.. Enumerable.Range(0, 80).Select(i => New(Utc(2061, 7, 30).AddHours(i)))];
        await many.SaveWithAsync([rows], CancellationToken.None);
        Assert.Equal(1 + 48, await CountAsync(db, "readings_2060"));
        Assert.Equal(32, await CountAsync(db, "readings_2061"));
    }

    /// <summary>A database that was in use before keeps its readings where they lay.</summary>
    [PostgresFact]
    public async Task The_readings_of_an_older_schema_are_there_after_the_upgrade_and_after_the_way_back()
    {
        await using var db = database.CreateDbContext();
        await db.GetService<IMigrator>().MigrateAsync("WaysStamps");
        List<Reading> held = [New(DateTime.UtcNow.AddYears(-2)), New(DateTime.UtcNow.AddDays(-1))];
        db.AddRange(held);
        await db.SaveChangesAsync();

        await db.GetService<IMigrator>().MigrateAsync();
        await ReadingSeasons.KeepAheadAsync(db, DateTime.UtcNow, CancellationToken.None);
        var next = New(DateTime.UtcNow.AddYears(1));
        db.Add(next);
        await db.SaveChangesAsync();

        Assert.Equal(2, await CountAsync(db, "readings_before"));
        Assert.True(next.Id > held.Max(r => r.Id));
        await db.GetService<IMigrator>().MigrateAsync("WaysStamps");
        db.Add(New(DateTime.UtcNow));
        await db.SaveChangesAsync();
        Assert.Equal(4, await db.Readings.Select(r => r.Id).Distinct().CountAsync());
    }

    private static DateTime Utc(int year, int month, int day) => new(year, month, day, 0, 0, 0, DateTimeKind.Utc);

    private static async Task<int> CountAsync(HatcheryDb db, string part) =>
        await db.Database.SqlQuery<int>($"SELECT count(*)::int AS \"Value\" FROM readings WHERE tableoid = to_regclass({part})").SingleAsync();

    private Reading New(DateTime at, Guid? sender = null) => new()
    {
        SenderId = sender ?? Guid.NewGuid(),
        TankId = world.One.Tanks[0].Id,
        At = at,
        ReceivedAt = at,
        Seen = new Observation { WaterC = 9.5 },
        ContentHash = "0",
        State = ReadingState.Accepted,
    };
}
