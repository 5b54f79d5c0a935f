using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A database made by an earlier schema keeps what it holds when a newer program meets it.</summary>
public class UpgradeTests
{
    private const string FirstSchema = "First";

    [Theory, BothDatabases]
    public async Task Flags_their_history_and_the_readings_outlive_the_way_down_and_up_again(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = new TestWorld();
        await using (var db = database.CreateDbContext())
        {
            world.One.AddTo(db);
            db.AddRange(SampleRows.Of(world.One));
            db.Add(SharedFlag(world.One));
            await db.SaveChangesAsync();
            db.Add(new FlagEvent { FlagId = (await db.Flags.FirstAsync(f => f.TankId != null)).Id, At = SampleRows.At, Deed = FlagDeed.Taken });
            await db.SaveChangesAsync();
        }

        var before = await HeldAsync(database);
        await database.MigrateAsync(FirstSchema);
        await database.MigrateAsync();

        // The first schema cannot hold a flag without a tank.
        Assert.Equal(before with { SharedFlags = 0 }, await HeldAsync(database));
        Assert.True(before is { TankFlags: > 0, Deeds: > 0, Readings: > 0, SharedFlags: > 0 });
    }

    [Theory, BothDatabases]
    public async Task Every_day_summary_of_the_first_schema_is_folded_again(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = new TestWorld();
        await using (var db = database.CreateDbContext())
        {
            world.One.AddTo(db);
            db.AddRange(SampleRows.Of(world.One));
            await db.SaveChangesAsync();
            await db.UnjudgedFacts.ExecuteDeleteAsync();
        }

        await database.MigrateAsync(FirstSchema);
        await database.MigrateAsync();

        await using var reader = database.CreateDbContext();
        var counted = await reader.Readings.Where(r => r.State == Hatchery.Readings.ReadingState.Accepted && r.CorrectedBy == null).Select(r => r.At).ToListAsync();
        Assert.NotEmpty(counted);
        Assert.Equal(counted.Order(), (await reader.UnjudgedFacts.Select(f => f.At).ToListAsync()).Order());
    }

    [Theory, BothDatabases]
    public async Task People_of_the_first_schema_get_the_morning_letter_at_half_past_six(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = new TestWorld();
        await using (var db = database.CreateDbContext())
        {
            world.One.AddTo(db);
            await db.SaveChangesAsync();
        }

        await database.MigrateAsync(FirstSchema);
        await database.MigrateAsync();

        await using var reader = database.CreateDbContext();
        Assert.All(await reader.Users.ToListAsync(), p => Assert.True(p.WantsDigest && p.WantsUrgent));
        Assert.All(await reader.Programmes.ToListAsync(), p => Assert.Equal(new TimeOnly(6, 30), p.DigestAt));
    }

    private static async Task<Held> HeldAsync(TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        return new Held(
            await db.Flags.CountAsync(f => f.TankId != null && f.State == FlagState.Open), await db.Flags.CountAsync(f => f.TankId == null),
            await db.FlagEvents.CountAsync(e => db.Flags.Any(f => f.Id == e.FlagId && f.TankId != null)), await db.Readings.CountAsync(), await db.Ledger.CountAsync());
    }

    private static Flag SharedFlag(TestProgramme p) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = p.Programme.Id,
        Kind = FlagKind.SharedCause,
        CauseBy = SharedBy.Lot,
        CauseCode = "A",
        Urgency = Urgency.Today,
        OpenedAt = SampleRows.At,
        UpdatedAt = SampleRows.At,
        StandsOn = SampleRows.At,
        Evidence = SampleEvidence.All.OfType<SharedCauseEvidence>().First(),
        Hazard = Hazard.Around(SampleRows.At, 24, 0.3),
        RuleVersion = "2026.1",
    };

    private sealed record Held(int TankFlags, int SharedFlags, int Deeds, int Readings, int LedgerLines);
}
