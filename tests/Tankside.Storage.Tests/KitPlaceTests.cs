using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A serial is in one place, also by the database's own word.</summary>
public class KitPlaceTests
{
    [Theory, BothDatabases]
    public async Task A_piece_in_two_places_at_once_cannot_be_stored(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var depot = new KitDepot { Id = Guid.NewGuid(), ProgrammeId = world.One.Programme.Id, Name = "Shed" };
        await AddAsync(database, depot);

        await RefusedAsync(database, world, KitCondition.Working, k => (k.InTankId, k.DepotId) = (world.One.Tanks[0].Id, depot.Id));
        await RefusedAsync(database, world, KitCondition.Working, k => (k.InTankId, k.WithPersonId) = (world.One.Tanks[0].Id, world.One.People[Role.KitHand].Id));
        await RefusedAsync(database, world, KitCondition.Working, k => (k.DepotId, k.WithPersonId) = (depot.Id, world.One.People[Role.KitHand].Id));
        await RefusedAsync(database, world, KitCondition.InRepair, k => k.DepotId = depot.Id);
        await RefusedAsync(database, world, KitCondition.Retired, k => k.InTankId = world.One.Tanks[0].Id);

        var well = SampleKit.New(world.One, "CH-9", KitCondition.Faulty);
        well.InTankId = world.One.Tanks[0].Id;
        await AddAsync(database, well);
    }

    [Theory, BothDatabases]
    public async Task Two_acts_cannot_follow_the_same_one_and_a_form_is_one_act(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var item = SampleKit.New(world.One, "CH-9", KitCondition.Working);
        var sender = Guid.NewGuid();
        await AddAsync(database, item, Act(item, 1, sender));

        Assert.True((await Assert.ThrowsAsync<DbUpdateException>(() => AddAsync(database, Act(item, 1, Guid.NewGuid())))).IsUniqueViolation());
        Assert.True((await Assert.ThrowsAsync<DbUpdateException>(() => AddAsync(database, Act(item, 2, sender)))).IsUniqueViolation());
        await AddAsync(database, Act(item, 2, Guid.NewGuid()));
    }

    /// <summary>Before depots were kept, every spare carried its own place. Down and up again, the same spares lie at the same places.</summary>
    [Theory, BothDatabases]
    public async Task Places_written_on_spares_become_depots_and_nothing_is_lost(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        var world = await TestWorld.SeedAsync(database);
        var depot = new KitDepot
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            Name = "stock room",
            SchoolId = world.One.Schools[0].Id,
            Holder = "Office",
            Phone = "555-0139",
            Hours = "8 to 15",
            Latitude = 45.5,
            Longitude = -122.25,
        };
        KitItem[] spares = [.. new[] { "CH-1", "CH-2" }.Select(s => SampleKit.New(world.One, s, KitCondition.Working))];
        var elsewhere = SampleKit.New(world.One, "CH-3", KitCondition.Working);
        var lent = SampleKit.New(world.One, "CH-4", KitCondition.Working);
        lent.InTankId = world.One.Tanks[0].Id;
        foreach (var spare in spares)
        {
            spare.DepotId = depot.Id;
        }

        await AddAsync(database, [depot, .. spares, elsewhere, lent]);
        await database.MigrateAsync("CalendarAndPlans");
        await database.MigrateAsync();

        await using var db = database.CreateDbContext();
        var now = await db.KitDepots.SingleAsync();
        Assert.Equal(("Birch Lane School, stock room", depot.SchoolId, "Office", "555-0139", "8 to 15", 45.5, -122.25), (now.Name, now.SchoolId, now.Holder, now.Phone, now.Hours, now.Latitude, now.Longitude));
        Assert.Equal(["CH-1", "CH-2"], await db.KitItems.Where(k => k.DepotId == now.Id).OrderBy(k => k.Serial).Select(k => k.Serial).ToListAsync());
        Assert.Equal(lent.InTankId, (await db.KitItems.SingleAsync(k => k.Serial == "CH-4")).InTankId);
        Assert.Null((await db.KitItems.SingleAsync(k => k.Serial == "CH-3")).DepotId);
    }

    private static KitAct Act(KitItem item, int number, Guid sender) => new() { ItemId = item.Id, Number = number, SenderId = sender, Kind = KitActKind.Noted, At = SampleRows.At };

    private static async Task RefusedAsync(TestDatabase database, TestWorld world, KitCondition condition, Action<KitItem> place)
    {
        var item = SampleKit.New(world.One, "CH-9", condition);
        place(item);
        var failure = await Assert.ThrowsAsync<DbUpdateException>(() => AddAsync(database, item));
        Assert.Contains("one_place", failure.InnerException?.Message, StringComparison.Ordinal);
    }

    private static async Task AddAsync(TestDatabase database, params object[] rows)
    {
        await using var db = database.CreateDbContext();
        db.AddRange(rows);
        await db.SaveChangesAsync();
    }
}
