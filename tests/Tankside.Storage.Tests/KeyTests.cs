using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Seasons;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>What there can be only one of, whoever writes it.</summary>
public class KeyTests
{
    [Theory, BothDatabases]
    public async Task A_tank_has_one_open_flag_of_a_kind_and_any_number_of_settled_ones(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        Flag[] settled = [Warm(world, FlagState.Settled), Warm(world, FlagState.Settled)];

        await AddAsync(database, [.. settled, Warm(world, FlagState.Open)]);

        await Refused(database, Warm(world, FlagState.Open));
        await AddAsync(database, Warm(world, FlagState.Settled), SampleRows.NewFlag(world.One, FlagKind.Cold, SampleEvidence.All[0]));
    }

    [Theory, BothDatabases]
    public async Task A_senders_id_is_one_reading_within_a_tank_but_free_in_another(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var sender = Guid.NewGuid();
        await AddAsync(database, ReadingOf(world.One.Tanks[0], sender));

        await Refused(database, ReadingOf(world.One.Tanks[0], sender));
        await AddAsync(database, ReadingOf(world.One.Tanks[1], sender));
    }

    [Theory, BothDatabases]
    public async Task A_tank_code_is_unique_in_the_installation_also_between_programmes(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);

        await Refused(database, new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.Two.Programme.Id,
            ClassroomId = world.Two.Rooms[0].Id,
            Code = world.One.Tanks[0].Code,
        });
    }

    [Theory, BothDatabases]
    public async Task A_season_name_is_unique_within_a_programme_and_free_in_another(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database); // Both programmes have a season of the same name already.

        await Refused(database, new Season { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, Name = world.One.Season.Name });
        Assert.Equal(world.One.Season.Name, world.Two.Season.Name);
    }

    [Theory, BothDatabases]
    public async Task A_person_has_one_place_in_a_programme(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);

        await Refused(database, new Membership
        {
            Id = Guid.NewGuid(),
            PersonId = world.One.People[Role.Teacher].Id,
            ProgrammeId = world.One.Programme.Id,
            Role = Role.KitHand,
        });
    }

    [Theory, BothDatabases]
    public async Task Another_failure_to_save_is_not_taken_for_a_repeated_key(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);

        var failure = await Assert.ThrowsAsync<DbUpdateException>(() => AddAsync(database, new Season
        {
            Id = Guid.NewGuid(),
            ProgrammeId = Guid.NewGuid(), // No such programme.
            Name = "2026-27",
        }));

        Assert.False(failure.IsUniqueViolation());
    }

    private static async Task Refused(TestDatabase database, object row)
    {
        var failure = await Assert.ThrowsAsync<DbUpdateException>(() => AddAsync(database, row));
        Assert.True(failure.IsUniqueViolation(), failure.InnerException?.Message);
    }

    private static async Task AddAsync(TestDatabase database, params object[] rows)
    {
        await using var db = database.CreateDbContext();
        db.AddRange(rows);
        await db.SaveChangesAsync();
    }

    private static Flag Warm(TestWorld world, FlagState state)
    {
        var flag = SampleRows.NewFlag(world.One, FlagKind.Warm, SampleEvidence.All[0]);
        flag.State = state;
        return flag;
    }

    private static Reading ReadingOf(Tank tank, Guid sender) =>
        new() { SenderId = sender, TankId = tank.Id, At = SampleRows.At, ReceivedAt = SampleRows.At, Seen = new Observation { WaterC = 9 }, ContentHash = "1" };
}
