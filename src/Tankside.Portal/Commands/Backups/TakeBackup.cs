using System.IO.Compression;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Writes the whole database of one moment into a file, beside running portals; under its name it stands only when it is whole.</summary>
public sealed class TakeBackup(TanksideOptions options, TimeProvider time)
{
    private const string SqliteFile = "tankside.db";

    public async Task<BackupAbout> WriteAsync(string file, Action<int, int> tell, CancellationToken cancel)
    {
        var draft = file + ".part";
        try
        {
            await BackupFile.WriteAsync(draft, zip => options.Database.Kind switch
            {
                DatabaseKind.Sqlite => FillFromSqliteAsync(zip, draft + ".db", cancel),
                DatabaseKind.PostgreSQL => FillFromPostgresAsync(zip, tell, cancel),
            }, cancel);
            var about = await ReadBackAsync(draft, cancel);
            File.Move(draft, file, overwrite: true);
            return about;
        }
        finally
        {
            File.Delete(draft);
            foreach (var rest in new[] { ".db", ".db-wal", ".db-shm", ".db-journal" })
            {
                File.Delete(draft + rest);
            }
        }
    }

    private async Task<BackupAbout> FillFromSqliteAsync(ZipArchive zip, string copy, CancellationToken cancel)
    {
        await BackupFile.CreateForOwner(copy).DisposeAsync();
        await SqliteCopy.CopyAsync(options.Database, copy);
        if (await SqliteCopy.WhatIsWrongAsync(copy) is { } wrong)
        {
            throw new InvalidDataException($"The database itself is damaged ({wrong}). Keep the last good backup.");
        }

        var schema = await SqliteCopy.SchemaAsync(copy) ?? throw NoTables();
        var tables = (await SqliteCopy.CountAsync(copy)).Select(t => new BackedUpTable(t.Key, t.Value, [])).ToList();
        await using var content = File.OpenRead(copy);
        var part = await BackupFile.AddAsync(zip, SqliteFile, to => content.CopyToAsync(to, cancel), cancel);
        return About(schema, tables, [part]);
    }

    private async Task<BackupAbout> FillFromPostgresAsync(ZipArchive zip, Action<int, int> tell, CancellationToken cancel)
    {
        await using var copy = await PostgresCopy.OfOneMomentAsync(options.Database, cancel);
        var schema = await copy.SchemaAsync(cancel) ?? throw NoTables();
        var (tables, parts) = (new List<BackedUpTable>(), new List<BackedUpPart>());
        var found = await copy.TablesAsync(cancel);
        foreach (var table in found)
        {
            var rows = 0L;
            parts.Add(await BackupFile.AddAsync(zip, PartOf(table.Name), async to => rows = await copy.WriteAsync(table, to, cancel), cancel));
            tables.Add(new BackedUpTable(table.Name, rows, table.Columns));
            tell(tables.Count, found.Count);
        }

        return About(schema, tables, parts);
    }

    internal static string PartOf(string table) => $"{table}.copy";

    /// <summary>What was written is read again from the disk, to the last row, before it takes the place of an older one.</summary>
    private static async Task<BackupAbout> ReadBackAsync(string draft, CancellationToken cancel)
    {
        var opened = await BackupFile.OpenAsync(draft, null, cancel);
        var about = opened.About ?? throw new InvalidDataException($"The backup was not kept as it was written: {opened.Refusal}");
        foreach (var part in about.Parts)
        {
            await BackupFile.ReadPartAsync(draft, part, _ => Task.CompletedTask, cancel);
        }

        return about;
    }

    private BackupAbout About(string schema, IReadOnlyList<BackedUpTable> tables, IReadOnlyList<BackedUpPart> parts) =>
        new(BackupAbout.NewestFormat, BackupAbout.ThisProgram, time.GetUtcNow().UtcDateTime, options.Database.Kind, schema, tables, parts);

    private static InvalidOperationException NoTables() => new("The database has no tables yet, so there is nothing to back up.");
}
