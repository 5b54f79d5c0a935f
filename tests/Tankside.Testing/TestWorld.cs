using Tankside.Storage;

namespace Tankside.Testing;

/// <summary>
/// A small made-up world: two programmes that know nothing of each other, each with two schools, a tank in each, and someone in every
/// role. <see cref="Now"/> is a Wednesday morning in school; the eggs came nineteen days before.
/// </summary>
public sealed class TestWorld
{
    public const string Password = "eyed eggs in a cooler";

    /// <summary>Rounds of the password hash in tests; a real one is made slow on purpose, and thousands of tests sign somebody in.</summary>
    public const int PasswordRounds = 1000;

    /// <summary>2027-02-03 08:15 in the first programme's own time.</summary>
    public static readonly DateTime Now = new(2027, 2, 3, 15, 15, 0, DateTimeKind.Utc);

    public TestProgramme One { get; } = new("Reed Valley", "America/Denver", 'A');

    public TestProgramme Two { get; } = new("Stone Fork", "America/Los_Angeles", 'B');

    /// <summary>Adds everything; save it.</summary>
    public void AddTo(HatcheryDb db)
    {
        One.AddTo(db);
        Two.AddTo(db);
    }

    public static async Task<TestWorld> SeedAsync(TestDatabase database)
    {
        var world = new TestWorld();
        await using var db = database.CreateDbContext();
        world.AddTo(db);
        await db.SaveChangesAsync();
        return world;
    }
}
