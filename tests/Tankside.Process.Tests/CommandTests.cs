using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The commands on a database in use: what they print where, and how they end.</summary>
public class CommandTests(SeededDatabases seeded) : IClassFixture<SeededDatabases>
{
    [Theory, BothDatabases]
    public async Task A_key_is_printed_alone_so_that_a_script_can_take_it(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = (await installation.RunAsync("key", "new", "--role", "coordinator", "--tanks", "A001,A002")).Good();

        Assert.Matches("^[0-9A-Za-z_-]{32,}\n$", answer.Output);
    }

    [Theory, BothDatabases]
    public async Task A_key_for_a_tank_that_is_not_there_is_not_made(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = await installation.RunAsync("key", "new", "--role", "logger", "--tanks", "A001,Z999");

        Assert.Equal(1, answer.ExitCode);
        Assert.Empty(answer.Output);
        Assert.Contains("Z999", answer.Trouble, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Judging_prints_one_line_of_what_came_of_it(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = (await installation.RunAsync("judge")).Good();

        Assert.Matches(@"^tanks [1-9]\d*, flags opened \d+, flags cleared \d+, seconds \d+\.\d\d$", Assert.Single(answer.Lines));
    }

    [Theory, BothDatabases]
    public async Task The_doctor_finds_a_good_installation_good_a_line_each(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = (await installation.RunAsync("doctor")).Good();

        Assert.Equal(6, answer.Lines.Length);
        Assert.All(answer.Lines, line => Assert.StartsWith("good ", line, StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task The_season_totals_are_written_with_a_byte_order_mark_and_balance_row_by_row(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        (await installation.RunAsync("export", "totals", "--out", "x.csv")).Good();

        var bytes = await File.ReadAllBytesAsync(Path.Combine(installation.Folder, "x.csv"));
        Assert.Equal(Encoding.UTF8.GetPreamble(), bytes[..3]);
        var rows = Encoding.UTF8.GetString(bytes[3..]).Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(r => r.Split(',')).ToList();
        Assert.Equal(48, rows.Count - 1);
        Assert.All(rows.Skip(1), row => AssertBalances(rows[0], row));
        Assert.Equal(["x.csv"], Directory.GetFileSystemEntries(installation.Folder).Select(Path.GetFileName));
    }

    [Theory, BothDatabases]
    public async Task The_totals_come_in_the_agencys_own_columns_and_a_line_that_cannot_be_read_is_named(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);
        await File.WriteAllTextAsync(Path.Combine(installation.Folder, "form.txt"), "# Form 7\nTank: tank\nIn: eggs_received + transferred_in\n");
        await File.WriteAllTextAsync(Path.Combine(installation.Folder, "wrong.txt"), "Tank: tank\nIn: eggs\n");

        (await installation.RunAsync("export", "totals", "--mapping", "form.txt", "--out", "own.csv")).Good();
        var wrong = await installation.RunAsync("export", "totals", "--mapping", "wrong.txt", "--out", "not.csv");

        var rows = await File.ReadAllLinesAsync(Path.Combine(installation.Folder, "own.csv"));
        Assert.Equal(("Tank,In", 49), (rows[0], rows.Length));
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("wrong.txt, line 2: The totals have no column", wrong.Trouble, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(installation.Folder, "not.csv")));
    }

    [Theory, BothDatabases]
    public async Task A_season_that_is_not_there_is_said_and_nothing_is_written(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = await installation.RunAsync("export", "totals", "--season", "nope", "--out", "x.csv");

        Assert.Equal(1, answer.ExitCode);
        Assert.Contains("nope", answer.Trouble, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(installation.Folder));
    }

    [Theory, BothDatabases]
    public async Task The_demo_season_is_refused_by_a_database_that_holds_a_programme(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);

        var answer = await installation.RunAsync("demo");

        Assert.Equal(1, answer.ExitCode);
        Assert.Empty(answer.Output);
        await using var db = (await seeded.OfAsync(kind)).CreateDbContext();
        Assert.Equal(1, await db.Programmes.CountAsync());
    }

    /// <summary>What came in is what went out, is still there, or is said not to be known.</summary>
    private static void AssertBalances(string[] header, string[] row)
    {
        Assert.Equal(header.Length, row.Length);
        Assert.Equal(
            Sum("eggs_received", "transferred_in"),
            Sum("dead_on_arrival", "egg_losses", "alevin_losses", "fry_losses", "put_down", "sampled", "transferred_out", "released",
                "still_in_tank", "unaccounted"));

        int Sum(params string[] columns) =>
            columns.Sum(column => int.Parse(row[Array.IndexOf(header, column)], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture));
    }
}
