using System.Data.Common;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Fills an empty PostgreSQL database from a backup: the migrations make the tables, one transaction fills them or leaves them empty.</summary>
public sealed class RestorePostgres(TanksideOptions options, IDbContextFactory<HatcheryDb> databases)
{
    public async Task<Restored> RunAsync(string backup, BackupAbout about, bool replace, CancellationToken cancel)
    {
        if (replace)
        {
            return new Restored.Refused("A PostgreSQL database is never replaced. Make an empty one (createdb), name it in ConnectionStrings:Tankside, and restore without --replace; the old one stays as it is.");
        }

        var others = await OthersAsync(cancel);
        Restored restored = new Restored.Done(null);
        await Databases.AloneAsync(databases, options.Database, async db =>
        {
            if ((await WhyNotEmptyAsync(db, cancel) ?? WhyBusy(others)) is { } why)
            {
                restored = new Restored.Refused(why);
                return;
            }

            using var progress = new Progress(Console.Error, "tables restored");
            await FillAsync(backup, about, options.Database, db, progress.Tell, cancel);
        }, cancel);
        return restored;
    }

    /// <summary>Brings the tables to the backup's schema, fills them, compares what stands there now with the backup, and goes on to the newest.</summary>
    public static async Task FillAsync(string backup, BackupAbout about, DatabaseChoice database, HatcheryDb db, Action<int, int> tell, CancellationToken cancel)
    {
        await db.GetService<IMigrator>().MigrateAsync(about.Schema, cancel);
        await using (var copy = await PostgresCopy.IntoAsync(database, cancel))
        {
            var tables = (await copy.TablesAsync(cancel)).ToDictionary(t => t.Name);
            await copy.WithoutReferencesAsync(async () =>
            {
                foreach (var table in tables.Keys)
                {
                    await copy.EmptyAsync(table, cancel);
                }

                var done = 0;
                foreach (var held in about.Tables)
                {
                    var table = tables.GetValueOrDefault(held.Name) ?? throw new InvalidDataException($"the backup holds a table {held.Name}, which the schema {about.Schema} does not have");
                    await FillAsync(copy, table with { Columns = held.Columns }, backup, about.Parts.Single(p => p.Name == TakeBackup.PartOf(held.Name)), held.Rows, cancel);
                    tell(++done, about.Tables.Count);
                }
            }, cancel);
            await copy.CommitAsync(cancel);
        }

        try
        {
            await db.Database.MigrateAsync(cancel);
        }
        catch (DbException e)
        {
            throw new InvalidOperationException($"the backup is restored, but not yet of the newest schema ({e.Message}); run the command migrate when that is put right");
        }
    }

    private static async Task FillAsync(PostgresCopy copy, CopiedTable table, string backup, BackedUpPart part, long rows, CancellationToken cancel)
    {
        var read = 0L;
        await BackupFile.ReadPartAsync(backup, part, async from => read = await copy.ReadAsync(table, from, cancel), cancel);
        using var sum = SHA256.Create();
        await using (var summed = new CryptoStream(Stream.Null, sum, CryptoStreamMode.Write))
        {
            await copy.WriteAsync(table, summed, cancel);
        }

        if (read != rows || Convert.ToHexStringLower(sum.Hash!) != part.Sha256)
        {
            throw new InvalidDataException($"the table {table.Name} did not come back as it was written");
        }

        await copy.GoOnNumberingAsync(table, cancel);
    }

    private static string? WhyBusy(int others) => others == 0 ? null
        : $"{others} other {(others == 1 ? "connection is" : "connections are")} open on the database: portals run, or somebody looks into it. Stop the portals first.";

    private async Task<int> OthersAsync(CancellationToken cancel)
    {
        try
        {
            return await PostgresCopy.OthersAsync(options.Database, cancel);
        }
        catch (PostgresException e) when (e.SqlState == PostgresErrorCodes.InvalidCatalogName)
        {
            return 0; // The database is not there yet.
        }
    }

    /// <summary>A portal that was started and never set up has its keys and a link in it; nothing else may be there.</summary>
    private async Task<string?> WhyNotEmptyAsync(HatcheryDb db, CancellationToken cancel)
    {
        if ((await db.Database.GetAppliedMigrationsAsync(cancel)).Except(db.Database.GetMigrations()).Any())
        {
            return "The database has a schema of a newer program than this.";
        }

        string?[] ofAStart = [db.Model.FindEntityType(typeof(DataProtectionKey))!.GetTableName(), db.Model.FindEntityType(typeof(SetUpLink))!.GetTableName()];
        await using var copy = await PostgresCopy.OfOneMomentAsync(options.Database, cancel);
        foreach (var table in (await copy.TablesAsync(cancel)).Where(t => !ofAStart.Contains(t.Name)))
        {
            if (await copy.CountAsync(table.Name, cancel) > 0)
            {
                return $"The database is not empty (there are rows in {table.Name}). Make an empty one (createdb), name it in ConnectionStrings:Tankside, and restore into that; the old one stays as it is.";
            }
        }

        return null;
    }
}
