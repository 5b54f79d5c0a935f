using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places;

/// <summary>What a programme set for itself is remembered as long as the database says that it stands.</summary>
public class ProgrammeWaysTests
{
    [Theory, BothDatabases]
    public async Task What_changes_behind_the_portals_back_is_seen_at_the_next_look_and_what_stands_is_not_read_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (one, two) = (world.One.Programme.Id, world.Two.Programme.Id);

        var first = await WaysAsync(host, one);
        Assert.Same(first, await WaysAsync(host, one));
        Assert.DoesNotContain(first.ClosuresOf(world.One.Schools[0].Id), c => c.Reason == "Burst pipe");

        // As another portal writes it, or a person by hand.
        await host.SeedAsync(db => db.AddRange(
            NewClosure(one, world.One.Schools[0].Id, "Burst pipe"), NewClosure(one, null, "Election"), NewClosure(two, null, "Harvest")));

        var now = await WaysAsync(host, one);
        Assert.Contains(now.ClosuresOf(world.One.Schools[0].Id), c => c.Reason == "Burst pipe");
        Assert.Contains(now.ClosuresOf(world.One.Schools[0].Id), c => c.Reason == "Election");
        Assert.DoesNotContain(now.ClosuresOf(world.One.Schools[1].Id), c => c.Reason == "Burst pipe");
        Assert.DoesNotContain(now.ClosuresOf(world.One.Schools[0].Id), c => c.Reason == "Harvest");
        Assert.True(await host.CallAsync<IDbContextFactory<HatcheryDb>, bool>(async databases =>
        {
            await using var db = await databases.CreateDbContextAsync();
            var place = (await Surroundings.LoadAsync(db, [world.One.Tanks[0].Id], CancellationToken.None)).Of(world.One.Tanks[0].Id);
            return !place.Calendar.IsSchoolDay(new DateOnly(2027, 3, 2)) && place.Calendar.IsSchoolDay(new DateOnly(2027, 3, 3));
        }));
    }

    [Theory, BothDatabases]
    public async Task What_was_read_in_a_change_that_is_taken_back_is_not_remembered(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var programme = world.One.Programme.Id;
        var before = await WaysAsync(host, programme);

        var within = await host.CallAsync<IDbContextFactory<HatcheryDb>, ProgrammeWays>(async databases =>
        {
            await using var db = await databases.CreateDbContextAsync();
            await using var transaction = await db.Database.BeginTransactionAsync();
            db.Add(NewClosure(programme, null, "Election"));
            await db.SaveChangesAsync();
            var ways = await ProgrammeWays.OfAsync(db, programme, CancellationToken.None);
            await transaction.RollbackAsync();
            return ways;
        });

        Assert.Contains(within.ClosuresOf(Guid.Empty), c => c.Reason == "Election");
        var after = await WaysAsync(host, programme);
        Assert.Equal(before.ClosuresOf(Guid.Empty).Select(c => c.Id), after.ClosuresOf(Guid.Empty).Select(c => c.Id));
    }

    private static Closure NewClosure(Guid programme, Guid? school, string reason) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme,
        SchoolId = school,
        FirstDay = new DateOnly(2027, 3, 2),
        LastDay = new DateOnly(2027, 3, 2),
        Reason = reason,
    };

    private static Task<ProgrammeWays> WaysAsync(PortalHost host, Guid programme) =>
        host.CallAsync<IDbContextFactory<HatcheryDb>, ProgrammeWays>(async databases =>
        {
            await using var db = await databases.CreateDbContextAsync();
            return await ProgrammeWays.OfAsync(db, programme, CancellationToken.None);
        });
}
