using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The commands on an empty database, on none, and with words they do not know.</summary>
public class BareCommandTests
{
    private static readonly DatabaseChoice[] Unreachable =
    [
        new(DatabaseKind.Sqlite, "Data Source=no/such/folder/tankside.db"),
        new(DatabaseKind.PostgreSQL, "Host=127.0.0.1;Port=1;Database=tankside;Username=nobody;Timeout=2"),
    ];

    [Theory, BothDatabases]
    public async Task Three_that_migrate_an_empty_database_at_once_wait_for_each_other(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database, "Production");

        var answers = await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => installation.RunAsync("migrate")));

        Assert.All(answers, answer => Assert.True(answer.ExitCode == 0, answer.Trouble));
        await using var db = database.CreateDbContext();
        Assert.Empty(await db.Database.GetPendingMigrationsAsync());
    }

    [Theory, BothDatabases]
    public async Task The_demo_season_is_refused_in_production(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        using var installation = Installation.On(database, "Production");

        var answer = await installation.RunAsync("demo");

        Assert.Equal(1, answer.ExitCode);
        Assert.Empty(answer.Output);
        await using var db = database.CreateDbContext();
        Assert.False(await db.Users.AnyAsync());
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.PostgreSQL)]
    public async Task The_doctor_says_a_line_each_of_a_database_that_does_not_answer(DatabaseKind kind)
    {
        using var installation = Installation.On(Unreachable.Single(u => u.Kind == kind));

        var answer = await installation.RunAsync("doctor");

        Assert.NotEqual(0, answer.ExitCode);
        Assert.Equal(6, answer.Lines.Length);
        Assert.All(answer.Lines, line => Assert.Matches("^(good |wrong) ", line));
        Assert.Contains(answer.Lines, line => line.StartsWith("wrong  database: ", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hatch")]
    [InlineData("migrate", "now")]
    [InlineData("judge", "A001")]
    [InlineData("rebuild", "A001")]
    [InlineData("simulate", "--tanks", "5", "--days", "30")]
    [InlineData("simulate", "--tanks", "0", "--days", "30", "--seed", "4")]
    [InlineData("simulate", "--tanks", "5", "--days", "30", "--seed", "4", "--logger-minutes", "none")]
    [InlineData("key")]
    [InlineData("key", "new", "--role", "logger")]
    [InlineData("key", "new", "--tanks", "all")]
    [InlineData("key", "new", "--role", "teacher", "--tanks", "all")]
    [InlineData("bounces")]
    [InlineData("backup")]
    [InlineData("backup", "--out", "x.zip", "--keep", "14")]
    [InlineData("backup", "--into", "x", "--keep", "0")]
    [InlineData("restore")]
    [InlineData("restore", "--from", "x.zip", "--try", "--replace")]
    [InlineData("second-step", "off")]
    [InlineData("export", "totals")]
    [InlineData("export", "totals", "--out")]
    [InlineData("export", "totals", "--out", "x.csv", "--colour", "red")]
    [InlineData("replay")]
    [InlineData("replay", "--case")]
    public async Task Words_that_are_no_command_end_with_2_and_the_usage(params string[] words)
    {
        using var installation = Installation.Unconfigured();

        var answer = await installation.RunAsync(words);

        Assert.Equal(2, answer.ExitCode);
        Assert.Empty(answer.Output);
        Assert.Contains(words[0] == "replay" ? "--case FILE" : "The commands are", answer.Trouble, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(installation.Folder));
    }
}
