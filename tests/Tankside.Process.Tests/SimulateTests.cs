using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>A made-up season of any size, and its running state made again.</summary>
public class SimulateTests
{
    [Theory, BothDatabases]
    public async Task A_season_is_written_once_into_an_empty_database_and_its_state_rebuilds_to_the_same(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database);

        var written = (await installation.RunAsync("simulate", "--tanks", "5", "--days", "30", "--seed", "4", "--logger-minutes", "120")).Good();

        await using var db = database.CreateDbContext();
        var readings = await db.Readings.CountAsync();
        Assert.InRange(readings, 5 * 25 * 12, 5 * 31 * 13);
        Assert.Matches(string.Create(CultureInfo.InvariantCulture, $@"^rows \d+, readings {readings}, seconds \d+\.\d, rows/s \d+$"), written.Lines[0]);
        Assert.Contains(written.Lines, l => l.StartsWith("demo sign-in: programme-lead ", StringComparison.Ordinal));
        Assert.EndsWith("5 of 5 tanks written\n", written.Trouble, StringComparison.Ordinal);
        var before = await StateAsync(db);

        var again = await installation.RunAsync("simulate", "--tanks", "5", "--days", "30", "--seed", "4");
        var rebuilt = (await installation.RunAsync("rebuild")).Good();

        Assert.Equal((1, ""), (again.ExitCode, again.Output));
        Assert.Contains("holds a programme already", again.Trouble, StringComparison.Ordinal);
        Assert.Matches(@"^tanks 5, days \d+$", Assert.Single(rebuilt.Lines));
        Assert.Equal(readings, await db.Readings.CountAsync());
        Assert.Equal(before, await StateAsync(db));
    }

    [Fact]
    public async Task In_production_nothing_is_made_up()
    {
        await using var database = await TestDatabase.CreateAsync(DatabaseKind.Sqlite);
        using var installation = Installation.On(database, "Production");

        var answer = await installation.RunAsync("simulate", "--tanks", "5", "--days", "30", "--seed", "4");

        Assert.Equal((1, ""), (answer.ExitCode, answer.Output));
        await using var db = database.CreateDbContext();
        Assert.False(await db.Programmes.AnyAsync());
    }

    private static async Task<string> StateAsync(HatcheryDb db)
    {
        var days = await db.TankDays.AsNoTracking().OrderBy(d => d.TankId).ThenBy(d => d.Day).ToListAsync();
        var facts = await db.DayFacts.AsNoTracking().OrderBy(d => d.TankId).ThenBy(d => d.Day).ToListAsync();
        return string.Join('\n', days.Select(d => JsonSerializer.Serialize(d)).Concat(facts.Select(f => JsonSerializer.Serialize(f))));
    }
}
