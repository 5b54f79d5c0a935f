using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>What is written comes back the same from either database.</summary>
public class RoundTripTests
{
    /// <summary>Tables that the framework alone writes and reads.</summary>
    private static readonly Type[] FrameworksOwn =
        [typeof(IdentityUserClaim<Guid>), typeof(IdentityUserLogin<Guid>), typeof(IdentityUserToken<Guid>), typeof(IdentityUserPasskey<Guid>), typeof(IdentityPasskeyData), typeof(DataProtectionKey)];

    [Theory, BothDatabases]
    public async Task Every_kind_of_row_comes_back_as_it_was_written(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = new TestWorld();
        await using var writer = database.CreateDbContext();
        world.One.AddTo(writer);
        writer.AddRange(SampleRows.Of(world.One));
        await writer.SaveChangesAsync();
        await writer.AddAsync(new FlagEvent
        {
            FlagId = (await writer.Flags.FirstAsync()).Id,
            At = SampleRows.At,
            By = world.One.People[Hatchery.People.Role.Coordinator].Id,
            Deed = FlagDeed.Closed,
            Note = "Fan was behind the curtain",
            Outcome = Outcome.FixedByPhone,
            Evidence = SampleEvidence.All[3],
            Urgency = Urgency.ThisWeek,
            Cause = TroubleCause.RoomOrSun,
            Until = SampleRows.At.AddHours(2),
            To = world.One.People[Hatchery.People.Role.Teacher].Id,
            RuleVersion = "2026.4",
        });
        await writer.AddAsync(new FlagEvent { FlagId = (await writer.Flags.FirstAsync()).Id, At = SampleRows.At, Deed = FlagDeed.SaidOver });
        await writer.SaveChangesAsync();

        var written = writer.ChangeTracker.Entries().ToList();
        await using var reader = database.CreateDbContext();
        foreach (var entry in written)
        {
            var read = await reader.FindAsync(entry.Metadata.ClrType, KeyOf(entry));
            Assert.Equal(Text(entry.Entity), Text(read!));
        }

        Assert.Equal(
            reader.Model.GetEntityTypes().Select(t => t.ClrType).Except(FrameworksOwn).Select(t => t.Name).Order(),
            written.Select(e => e.Metadata.ClrType.Name).Distinct().Order());
    }

    [Theory, BothDatabases]
    public async Task Evidence_of_every_kind_comes_back_equal(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var flags = SampleEvidence.All.Select((e, i) => SampleRows.NewFlag(world.One, (FlagKind)i, e)).ToList();
        await using (var db = database.CreateDbContext())
        {
            db.AddRange(flags);
            await db.SaveChangesAsync();
        }

        await using var reader = database.CreateDbContext();
        var read = await reader.Flags.ToDictionaryAsync(f => f.Id);
        Assert.All(flags, f => Assert.Equal(f.Evidence, read[f.Id].Evidence));
        Assert.All(flags, f => Assert.Equal(f.Hazard, read[f.Id].Hazard));
    }

    [Theory, BothDatabases]
    public async Task An_instant_keeps_its_millisecond_and_comes_back_as_UTC(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await using (var db = database.CreateDbContext())
        {
            db.Add(new UnjudgedFact { TankId = Guid.NewGuid(), At = SampleRows.At });
            await db.SaveChangesAsync();
        }

        await using var reader = database.CreateDbContext();
        var read = await reader.UnjudgedFacts.SingleAsync();
        Assert.Equal(SampleRows.At, read.At);
        Assert.Equal(DateTimeKind.Utc, read.At.Kind);
    }

    [Fact]
    public void The_full_sample_leaves_nothing_unseen() => Assert.DoesNotContain(
        typeof(Observation).GetProperties().Where(p => p.CanWrite), p => p.GetValue(SampleRows.EverythingSeen) is null);

    [Fact]
    public void The_samples_hold_evidence_of_every_kind() => Assert.Equal(
        typeof(Evidence).GetCustomAttributes<JsonDerivedTypeAttribute>().Select(a => a.DerivedType.Name).Order(),
        SampleEvidence.All.Select(e => e.GetType().Name).Distinct().Order());

    [PostgresFact]
    public void PostgreSQL_is_there_for_the_second_half_of_every_test() => Assert.Null(PostgresServer.WhyUnavailable);

    private static object?[] KeyOf(EntityEntry entry) =>
        [.. entry.Metadata.FindPrimaryKey()!.Properties.Select(p => entry.Property(p).CurrentValue)];

    internal static string Text(object row) => JsonSerializer.Serialize(row, row.GetType());
}
