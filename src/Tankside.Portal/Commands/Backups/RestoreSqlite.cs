using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Makes the restored file beside the database, brings it to the newest schema, and puts it in its place at the very end.</summary>
public sealed class RestoreSqlite(TanksideOptions options, IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private static readonly string[] Beside = ["", "-wal", "-shm", "-journal"];

    public async Task<Restored> RunAsync(string backup, BackupAbout about, bool replace, CancellationToken cancel)
    {
        var file = SqliteCopy.FileOf(options.Database);
        if (!Directory.Exists(Path.GetDirectoryName(file)))
        {
            return new Restored.Refused($"There is no folder {Path.GetDirectoryName(file)} for the database.");
        }

        if (!replace && await SqliteCopy.MayHoldProgrammeAsync(file))
        {
            return new Restored.Refused($"{file} holds a programme, or cannot be read. With --replace it is kept under another name beside, and the backup takes its place.");
        }

        Restored restored = new Restored.Done(null);
        await Databases.AloneAsync(databases, options.Database, async _ => restored = await PutInPlaceAsync(backup, about, file, cancel), cancel);
        return restored;
    }

    private async Task<Restored> PutInPlaceAsync(string backup, BackupAbout about, string file, CancellationToken cancel)
    {
        if (File.Exists(file) && await SqliteCopy.IsInUseAsync(file))
        {
            return new Restored.Refused($"{file} is open in another program: a portal runs. Stop it first.");
        }

        var fresh = file + ".restoring";
        try
        {
            await MakeAsync(backup, about, fresh, cancel);
            var kept = File.Exists(file) ? $"{file}.before-{time.GetUtcNow().UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture)}" : null;
            if (kept is not null)
            {
                MoveAll(file, kept);
            }

            File.Move(fresh, file);
            return new Restored.Done(kept);
        }
        finally
        {
            DeleteAll(fresh);
        }
    }

    /// <summary>A file with what the backup holds, of the newest schema.</summary>
    public static async Task MakeAsync(string backup, BackupAbout about, string file, CancellationToken cancel)
    {
        DeleteAll(file);
        await using (var content = BackupFile.CreateForOwner(file))
        {
            await BackupFile.ReadPartAsync(backup, about.Parts[0], from => from.CopyToAsync(content, cancel), cancel);
            content.Flush(flushToDisk: true);
        }

        if (await SqliteCopy.WhatIsWrongAsync(file) is { } wrong)
        {
            throw new InvalidDataException($"the database in {backup} is damaged ({wrong})");
        }

        var counts = await SqliteCopy.CountAsync(file);
        if (about.Tables.FirstOrDefault(t => counts.GetValueOrDefault(t.Name) != t.Rows) is { } differs)
        {
            throw new InvalidDataException($"{differs.Name} should have {differs.Rows} rows and has {counts.GetValueOrDefault(differs.Name)}");
        }

        await using var db = Databases.ToMigrate(SqliteCopy.ChoiceOf(file));
        await db.Database.MigrateAsync(cancel);
    }

    internal static void DeleteAll(string file)
    {
        foreach (var ending in Beside)
        {
            File.Delete(file + ending);
        }
    }

    /// <summary>With its log, should one be left of a portal that was killed.</summary>
    private static void MoveAll(string from, string to)
    {
        foreach (var ending in Beside.Where(e => File.Exists(from + e)))
        {
            File.Move(from + ending, to + ending);
        }
    }
}

/// <summary>Contexts on a database that is not the configured one.</summary>
internal sealed class AtOne(DatabaseChoice choice) : IDbContextFactory<HatcheryDb>
{
    private readonly DbContextOptions<HatcheryDb> options = (DbContextOptions<HatcheryDb>)Databases.Use(new DbContextOptionsBuilder<HatcheryDb>(), choice).Options;

    public HatcheryDb CreateDbContext() => new(options);
}
