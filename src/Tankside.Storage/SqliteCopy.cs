using Microsoft.Data.Sqlite;

namespace Tankside.Storage;

/// <summary>A whole SQLite file of one moment, taken while others read and write it.</summary>
public static class SqliteCopy
{
    private const int Busy = 5;

    public static string FileOf(DatabaseChoice database) => Path.GetFullPath(new SqliteConnectionStringBuilder(database.ConnectionString).DataSource);

    public static DatabaseChoice ChoiceOf(string file) =>
        new(DatabaseKind.Sqlite, new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ConnectionString);

    /// <summary>Copies page by page in one step: writers go on beside it, and what they write meanwhile is not in the copy.</summary>
    public static async Task CopyAsync(DatabaseChoice from, string file)
    {
        await using var source = await OpenAsync(FileOf(from));
        await using var copy = await OpenAsync(file, SqliteOpenMode.ReadWriteCreate);
        source.BackupDatabase(copy);
    }

    /// <summary>What SQLite itself finds wrong with a file; null when it is whole.</summary>
    public static async Task<string?> WhatIsWrongAsync(string file)
    {
        try
        {
            await using var connection = await OpenAsync(file);
            return await TextAsync(connection, "PRAGMA integrity_check(1)") is "ok" ? null : "SQLite finds it damaged";
        }
        catch (SqliteException e)
        {
            return e.Message;
        }
    }

    /// <summary>The last step of the schema that was applied; null when there is none.</summary>
    public static async Task<string?> SchemaAsync(string file)
    {
        await using var connection = await OpenAsync(file);
        return await HasTableAsync(connection, PostgresCopy.History) ? await TextAsync(connection, $"SELECT max(\"MigrationId\") FROM \"{PostgresCopy.History}\"") : null;
    }

    /// <summary>True when there is a programme in the file. What cannot be read at all may hold one.</summary>
    public static async Task<bool> MayHoldProgrammeAsync(string file)
    {
        if (!File.Exists(file) || new FileInfo(file).Length == 0)
        {
            return false;
        }

        try
        {
            await using var connection = await OpenAsync(file);
            return await HasTableAsync(connection, "programmes") && await TextAsync(connection, "SELECT count(*) FROM programmes") is not "0";
        }
        catch (SqliteException)
        {
            return true;
        }
    }

    /// <summary>The rows of every table, by name.</summary>
    public static async Task<IReadOnlyDictionary<string, long>> CountAsync(string file)
    {
        await using var connection = await OpenAsync(file);
        var names = new List<string>();
        await using (var command = new SqliteCommand("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER BY name", connection))
        {
            await using var reader = await command.ExecuteReaderAsync();
            while (await reader.ReadAsync())
            {
                names.Add(reader.GetString(0));
            }
        }

        var counts = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            counts[name] = long.Parse(await TextAsync(connection, $"SELECT count(*) FROM \"{name}\"") ?? "0", System.Globalization.CultureInfo.InvariantCulture);
        }

        return counts;
    }

    /// <summary>
    /// True while another process has the file open: as long as one does, its log beside it cannot be done away with. What stood in the log is
    /// in the file afterwards.
    /// </summary>
    public static async Task<bool> IsInUseAsync(string file)
    {
        await using var connection = await OpenAsync(file);
        try
        {
            var before = await TextAsync(connection, "PRAGMA journal_mode");
            await TextAsync(connection, "PRAGMA journal_mode = delete");
            await TextAsync(connection, $"PRAGMA journal_mode = {before}");
            return false;
        }
        catch (SqliteException e) when (e.SqliteErrorCode == Busy)
        {
            return true;
        }
        catch (SqliteException)
        {
            return false; // No database at all: nobody can be using it.
        }
    }

    private static async Task<SqliteConnection> OpenAsync(string file, SqliteOpenMode mode = SqliteOpenMode.ReadWrite)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false, Mode = mode, DefaultTimeout = 2 }.ConnectionString);
        await connection.OpenAsync();
        return connection;
    }

    private static async Task<bool> HasTableAsync(SqliteConnection connection, string name) =>
        await TextAsync(connection, $"SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '{name}'") is not "0";

    private static async Task<string?> TextAsync(SqliteConnection connection, string sql)
    {
        await using var command = new SqliteCommand(sql, connection);
        return (await command.ExecuteScalarAsync())?.ToString();
    }
}
