using Microsoft.EntityFrameworkCore;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Instants are ordered, compared and taken apart alike on both databases.</summary>
public class InstantTests
{
    private static readonly DateTime Noon = new(2027, 3, 14, 12, 0, 0, DateTimeKind.Utc);

    /// <summary>Out of order; a whole second, a millisecond after it, a tenth, and either side of midnight and of a year.</summary>
    private static readonly DateTime[] Instants =
    [
        Noon.AddMilliseconds(100), Noon, Noon.AddHours(12), Noon.AddMilliseconds(1), Noon.AddMilliseconds(10), Noon.AddHours(12).AddMilliseconds(-1),
        new(2026, 12, 31, 23, 59, 59, 999, DateTimeKind.Utc), new(2027, 1, 1, 0, 0, 0, DateTimeKind.Utc),
    ];

    [Theory, BothDatabases]
    public async Task They_sort_by_time(DatabaseKind kind)
    {
        await using var database = await SeededAsync(kind);
        await using var db = database.CreateDbContext();

        Assert.Equal(Instants.Order(), await db.UnjudgedFacts.OrderBy(f => f.At).Select(f => f.At).ToListAsync());
        Assert.Equal(Instants.Max(), await db.UnjudgedFacts.MaxAsync(f => f.At));
    }

    [Theory, BothDatabases]
    public async Task They_compare_to_the_millisecond(DatabaseKind kind)
    {
        await using var database = await SeededAsync(kind);
        await using var db = database.CreateDbContext();
        foreach (var bound in Instants)
        {
            Assert.Equal(Instants.Count(i => i < bound), await db.UnjudgedFacts.CountAsync(f => f.At < bound));
            Assert.Equal(Instants.Count(i => i >= bound), await db.UnjudgedFacts.CountAsync(f => f.At >= bound));
            Assert.Equal(1, await db.UnjudgedFacts.CountAsync(f => f.At == bound));
        }
    }

    [Theory, BothDatabases]
    public async Task They_group_by_the_UTC_day(DatabaseKind kind)
    {
        await using var database = await SeededAsync(kind);
        await using var db = database.CreateDbContext();

        var counts = await db.UnjudgedFacts.GroupBy(f => f.At.Date).Select(g => new { g.Key, Count = g.Count() }).ToListAsync();

        Assert.Equal(
            Instants.GroupBy(i => i.Date).Select(g => (g.Key, g.Count())).Order(),
            counts.Select(c => (c.Key, c.Count)).Order());
    }

    private static async Task<TestDatabase> SeededAsync(DatabaseKind kind)
    {
        var database = await TestDatabase.CreateAsync(kind);
        await using var db = database.CreateDbContext();
        db.AddRange(Instants.Select(at => new UnjudgedFact { TankId = Guid.NewGuid(), At = at }));
        await db.SaveChangesAsync();
        return database;
    }
}
