using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Two who change the same row at once: the second is told.</summary>
public class ClashTests
{
    [Theory, BothDatabases]
    public async Task The_second_to_change_a_flag_is_told(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        await using (var db = database.CreateDbContext())
        {
            db.Add(SampleRows.NewFlag(world.One, FlagKind.Warm, SampleEvidence.All[0]));
            await db.SaveChangesAsync();
        }

        await using var first = database.CreateDbContext();
        await using var second = database.CreateDbContext();
        (await first.Flags.SingleAsync()).TakenBy = Guid.NewGuid();
        (await second.Flags.SingleAsync()).Urgency = Urgency.ActNow;
        await first.SaveChangesAsync();

        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => second.SaveChangesAsync());
        await using var after = database.CreateDbContext();
        var kept = await after.Flags.SingleAsync();
        Assert.Equal(Urgency.Today, kept.Urgency);
        Assert.Equal(1, kept.Version);
    }

    [Theory, BothDatabases]
    public async Task The_second_to_correct_a_reading_is_told(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await SeedReadingAsync(database);
        await using var first = database.CreateDbContext();
        await using var second = database.CreateDbContext();
        var winner = Guid.NewGuid();
        (await first.Readings.SingleAsync()).CorrectedBy = winner;
        (await second.Readings.SingleAsync()).CorrectedBy = Guid.NewGuid();
        await first.SaveChangesAsync();

        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => second.SaveChangesAsync());
        await using var after = database.CreateDbContext();
        Assert.Equal(winner, (await after.Readings.SingleAsync()).CorrectedBy);
    }

    [Theory, BothDatabases]
    public async Task The_second_to_answer_a_doubtful_reading_is_told(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await SeedReadingAsync(database);
        await using var first = database.CreateDbContext();
        await using var second = database.CreateDbContext();
        (await first.Readings.SingleAsync()).State = ReadingState.Accepted;
        (await second.Readings.SingleAsync()).State = ReadingState.Withdrawn;
        await first.SaveChangesAsync();

        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => second.SaveChangesAsync());
    }

    private static async Task SeedReadingAsync(TestDatabase database)
    {
        var world = await TestWorld.SeedAsync(database);
        await using var db = database.CreateDbContext();
        db.Add(new Reading
        {
            SenderId = Guid.NewGuid(),
            TankId = world.One.Tanks[0].Id,
            At = SampleRows.At,
            ReceivedAt = SampleRows.At,
            State = ReadingState.Asked,
            Seen = new Observation { WaterC = 25 },
            ContentHash = "1",
        });
        await db.SaveChangesAsync();
    }
}
