using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Npgsql;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Restores a backup into a database that is thrown away, and says what is in it beside what is in the running one.</summary>
public sealed class Drill(TanksideOptions options, IDbContextFactory<HatcheryDb> running)
{
    public Task<int> RunAsync(string backup, BackupAbout about, CancellationToken cancel) => options.Database.Kind switch
    {
        DatabaseKind.Sqlite => InAFileAsync(backup, about, cancel),
        DatabaseKind.PostgreSQL => InADatabaseAsync(backup, about, cancel),
    };

    private async Task<int> InAFileAsync(string backup, BackupAbout about, CancellationToken cancel)
    {
        var folder = Directory.CreateTempSubdirectory("tankside-try-").FullName;
        try
        {
            var file = Path.Combine(folder, "tankside.db");
            await RestoreSqlite.MakeAsync(backup, about, file, cancel);
            await TellAsync(about, new AtOne(SqliteCopy.ChoiceOf(file)), cancel);
            return ExitCodes.Good;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private async Task<int> InADatabaseAsync(string backup, BackupAbout about, CancellationToken cancel)
    {
        var name = $"tankside_try_{Guid.NewGuid():n}";
        var choice = new DatabaseChoice(DatabaseKind.PostgreSQL, new NpgsqlConnectionStringBuilder(options.Database.ConnectionString) { Database = name }.ConnectionString);
        try
        {
            await RunAsync($"CREATE DATABASE {name}", cancel);
        }
        catch (PostgresException e) when (e.SqlState == PostgresErrorCodes.InsufficientPrivilege)
        {
            await Console.Error.WriteLineAsync("The account may not make a database to try in. Allow it (as the database's owner: ALTER ROLE … CREATEDB), or restore into an empty one. Nothing was changed.");
            return ExitCodes.Failed;
        }

        try
        {
            var tried = new AtOne(choice);
            await using (var db = tried.CreateDbContext())
            {
                using var progress = new Progress(Console.Error, "tables restored");
                await RestorePostgres.FillAsync(backup, about, choice, db, progress.Tell, cancel);
            }

            await TellAsync(about, tried, cancel);
            return ExitCodes.Good;
        }
        finally
        {
            await RunAsync($"DROP DATABASE {name} WITH (FORCE)", CancellationToken.None);
        }
    }

    private async Task RunAsync(string sql, CancellationToken cancel)
    {
        await using var connection = new NpgsqlConnection(options.Database.ConnectionString);
        await connection.OpenAsync(cancel);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(cancel);
    }

    private async Task TellAsync(BackupAbout about, IDbContextFactory<HatcheryDb> tried, CancellationToken cancel)
    {
        Console.WriteLine(about.Words);
        Console.WriteLine(FormattableString.Invariant($"good: all {about.Rows} rows of {about.Tables.Count} tables came back as they were written"));
        await using var db = await tried.CreateDbContextAsync(cancel);
        await using var today = await running.CreateDbContextAsync(cancel);

        // A database that is lost, or of an older schema, has nothing to compare with.
        var isThere = await today.Database.CanConnectAsync(cancel) && !(await today.Database.GetPendingMigrationsAsync(cancel)).Any();
        foreach (var programme in await db.Programmes.AsNoTracking().OrderBy(p => p.Name).ToListAsync(cancel))
        {
            Console.WriteLine(FormattableString.Invariant($"programme {programme.Name}"));
            foreach (var season in await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == programme.Id).OrderByDescending(s => s.StartsOn).ToListAsync(cancel))
            {
                var then = await SeasonFold.LoadAsync(db, programme, season, null, cancel);
                var still = isThere && await today.Seasons.AnyAsync(s => s.Id == season.Id, cancel) ? await SeasonFold.LoadAsync(today, programme, season, null, cancel) : null;
                Console.WriteLine($"  season {season.Name}: {Words(then)}; {(still is null ? "not in the running database" : Sum(still) == Sum(then) ? "the account is now the same" : $"now {Words(still)}")}");
            }
        }

        var last = await db.Readings.MaxAsync(r => (DateTime?)r.ReceivedAt, cancel);
        Console.WriteLine(FormattableString.Invariant($"last reading in the backup: {(last is null ? "none" : $"{last:yyyy-MM-dd HH:mm} UTC")}"));
    }

    private static string Words(SeasonTotals totals) => FormattableString.Invariant(
        $"{totals.Tanks.Count} tanks, {totals.Tanks.Sum(t => t.Balance.Received)} eggs received, {totals.Tanks.Sum(t => t.Balance.Released)} released, {totals.Tanks.Sum(t => t.Balance.StillInTank)} in tanks");

    private static string Sum(SeasonTotals totals) => Convert.ToHexStringLower(SHA256.HashData(TotalsCsv.Write(totals)));
}
