using System.Data;
using System.Globalization;
using System.Text;
using Npgsql;

namespace Tankside.Storage;

/// <summary>A table as it is copied: its columns in their order, its rows in the order of its key.</summary>
public sealed record CopiedTable(string Name, IReadOnlyList<string> Columns, string Order);

/// <summary>The rows of a PostgreSQL database as COPY text, all of one moment, and back into tables that the migrations have made.</summary>
public sealed class PostgresCopy : IAsyncDisposable
{
    public const string History = "__EFMigrationsHistory";

    private readonly NpgsqlConnection connection;
    private readonly NpgsqlTransaction transaction;

    private PostgresCopy(NpgsqlConnection connection, NpgsqlTransaction transaction) => (this.connection, this.transaction) = (connection, transaction);

    /// <summary>Everything read through it is of the moment in which it was opened, whatever is written meanwhile.</summary>
    public static async Task<PostgresCopy> OfOneMomentAsync(DatabaseChoice database, CancellationToken cancel)
    {
        var copy = await BeginAsync(database, IsolationLevel.RepeatableRead, cancel);
        await copy.RunAsync("SET TRANSACTION READ ONLY", cancel);
        return copy;
    }

    /// <summary>Everything written through it is there after <see cref="CommitAsync"/>, or nothing.</summary>
    public static Task<PostgresCopy> IntoAsync(DatabaseChoice database, CancellationToken cancel) => BeginAsync(database, IsolationLevel.ReadCommitted, cancel);

    /// <summary>How many others have the database open: portals, or somebody with a tool.</summary>
    public static async Task<int> OthersAsync(DatabaseChoice database, CancellationToken cancel)
    {
        await using var connection = await OpenAsync(database, cancel);
        await using var command = new NpgsqlCommand(
            "SELECT count(*)::int FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid() AND usesysid IS NOT NULL", connection);
        return (int)(await command.ExecuteScalarAsync(cancel))!;
    }

    public Task CommitAsync(CancellationToken cancel) => transaction.CommitAsync(cancel);

    public async ValueTask DisposeAsync()
    {
        await transaction.DisposeAsync();
        await connection.DisposeAsync();
    }

    /// <summary>The last step of the schema that was applied; null when there is none.</summary>
    public async Task<string?> SchemaAsync(CancellationToken cancel) =>
        await TextAsync($"SELECT to_regclass('\"{History}\"')::text", cancel) is null ? null : await TextAsync($"SELECT max(\"MigrationId\" COLLATE \"C\") FROM \"{History}\"", cancel);

    /// <summary>All tables but the one in which the steps of the schema are kept.</summary>
    public async Task<IReadOnlyList<CopiedTable>> TablesAsync(CancellationToken cancel)
    {
        // A table in parts is read and filled as a whole: a restored one may have other parts. The order is the same whatever language the server sorts in: text as its bytes.
        await using var command = new NpgsqlCommand(
            $"""
            SELECT c.relname,
                array(SELECT a.attname::text FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' ORDER BY a.attnum),
                coalesce((SELECT string_agg(quote_ident(a.attname) || CASE WHEN a.attcollation <> 0 THEN ' COLLATE "C"' ELSE '' END, ', ' ORDER BY k.place)
                    FROM pg_index i, unnest(i.indkey::smallint[]) WITH ORDINALITY k(attnum, place), pg_attribute a
                    WHERE i.indrelid = c.oid AND i.indisprimary AND a.attrelid = c.oid AND a.attnum = k.attnum), '')
            FROM pg_class c WHERE c.relnamespace = current_schema()::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition AND c.relname <> '{History}'
            ORDER BY c.relname COLLATE "C"
            """, connection);
        await using var reader = await command.ExecuteReaderAsync(cancel);
        var tables = new List<CopiedTable>();
        while (await reader.ReadAsync(cancel))
        {
            tables.Add(new CopiedTable(reader.GetString(0), reader.GetFieldValue<string[]>(1), reader.GetString(2)));
        }

        return tables;
    }

    /// <summary>Writes the rows, a line each, and counts them.</summary>
    public async Task<long> WriteAsync(CopiedTable table, Stream to, CancellationToken cancel)
    {
        var order = table.Order.Length == 0 ? "" : $" ORDER BY {table.Order}";
        using var rows = await connection.BeginTextExportAsync($"COPY (SELECT {Columns(table)} FROM {Quoted(table.Name)}{order}) TO STDOUT", cancel);
        await using var text = new StreamWriter(to, new UTF8Encoding(false), 1 << 16, leaveOpen: true);
        return await PourAsync(rows, text, cancel);
    }

    /// <summary>Takes in what <see cref="WriteAsync"/> wrote.</summary>
    public async Task<long> ReadAsync(CopiedTable table, Stream from, CancellationToken cancel)
    {
        using var text = new StreamReader(from, new UTF8Encoding(false), false, 1 << 16, leaveOpen: true);
        await using var rows = await connection.BeginTextImportAsync($"COPY {Quoted(table.Name)} ({Columns(table)}) FROM STDIN", cancel);
        return await PourAsync(text, rows, cancel);
    }

    /// <summary>
    /// Fills the tables with the references between them set aside, so that they may come in any order; putting the references back tells
    /// when one leads nowhere. What the database writes by itself when a row comes in is in the copy already, and does not happen again.
    /// </summary>
    public async Task WithoutReferencesAsync(Func<Task> fill, CancellationToken cancel)
    {
        const string Sql = "SELECT conrelid::regclass::text, quote_ident(conname), pg_get_constraintdef(oid) FROM pg_constraint WHERE contype = 'f' AND conparentid = 0 AND connamespace = current_schema()::regnamespace";
        var references = new List<(string Table, string Name, string Definition)>();
        await using (var command = new NpgsqlCommand(Sql, connection))
        await using (var reader = await command.ExecuteReaderAsync(cancel))
        {
            while (await reader.ReadAsync(cancel))
            {
                references.Add((reader.GetString(0), reader.GetString(1), reader.GetString(2)));
            }
        }

        var tables = await TablesAsync(cancel);
        await RunAsync(string.Concat(references.Select(r => $"ALTER TABLE {r.Table} DROP CONSTRAINT {r.Name};")), cancel);
        await RunAsync(string.Concat(tables.Select(t => $"ALTER TABLE {Quoted(t.Name)} DISABLE TRIGGER USER;")), cancel);
        await fill();
        await RunAsync(string.Concat(tables.Select(t => $"ALTER TABLE {Quoted(t.Name)} ENABLE TRIGGER USER;")), cancel);
        await RunAsync(string.Concat(references.Select(r => $"ALTER TABLE {r.Table} ADD CONSTRAINT {r.Name} {r.Definition};")), cancel);
    }

    public async Task<long> CountAsync(string table, CancellationToken cancel) =>
        long.Parse(await TextAsync($"SELECT count(*) FROM {Quoted(table)}", cancel) ?? "0", CultureInfo.InvariantCulture);

    public Task EmptyAsync(string table, CancellationToken cancel) => RunAsync($"DELETE FROM {Quoted(table)}", cancel);

    /// <summary>Numbers that the database gives go on after the highest that is there.</summary>
    public async Task GoOnNumberingAsync(CopiedTable table, CancellationToken cancel)
    {
        foreach (var column in table.Columns)
        {
            if (await TextAsync($"SELECT pg_get_serial_sequence({Literal(Quoted(table.Name))}, {Literal(column)})", cancel) is { } sequence)
            {
                await RunAsync($"SELECT setval({Literal(sequence)}, max({Quoted(column)})) FROM {Quoted(table.Name)} HAVING max({Quoted(column)}) IS NOT NULL", cancel);
            }
        }
    }

    private static async Task<PostgresCopy> BeginAsync(DatabaseChoice database, IsolationLevel isolation, CancellationToken cancel)
    {
        var connection = await OpenAsync(database, cancel);
        var copy = new PostgresCopy(connection, await connection.BeginTransactionAsync(isolation, cancel));
        await copy.RunAsync("SET LOCAL TIME ZONE 'UTC'; SET LOCAL datestyle = 'ISO'; SET LOCAL intervalstyle = 'postgres'; SET LOCAL extra_float_digits = 1; SET LOCAL bytea_output = 'hex'", cancel);
        return copy;
    }

    /// <summary>A connection of its own, with no other's patience: it waits as long as a large table takes.</summary>
    private static async Task<NpgsqlConnection> OpenAsync(DatabaseChoice database, CancellationToken cancel)
    {
        var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(database.ConnectionString) { ApplicationName = "tankside copy", CommandTimeout = 0 }.ConnectionString);
        await connection.OpenAsync(cancel);
        return connection;
    }

    private static async Task<long> PourAsync(TextReader from, TextWriter to, CancellationToken cancel)
    {
        var (rows, buffer) = (0L, new char[1 << 16]);
        for (int read; (read = await from.ReadAsync(buffer, cancel)) > 0;)
        {
            rows += buffer.AsSpan(0, read).Count('\n');
            await to.WriteAsync(buffer.AsMemory(0, read), cancel);
        }

        return rows;
    }

    private static string Columns(CopiedTable table) => string.Join(", ", table.Columns.Select(Quoted));

    private static string Quoted(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private static string Literal(string text) => $"'{text.Replace("'", "''", StringComparison.Ordinal)}'";

    private async Task RunAsync(string sql, CancellationToken cancel)
    {
        if (sql.Length > 0)
        {
            await using var command = new NpgsqlCommand(sql, connection);
            await command.ExecuteNonQueryAsync(cancel);
        }
    }

    private async Task<string?> TextAsync(string sql, CancellationToken cancel)
    {
        await using var command = new NpgsqlCommand(sql, connection);
        return (await command.ExecuteScalarAsync(cancel)) is { } found and not DBNull ? Convert.ToString(found, CultureInfo.InvariantCulture) : null;
    }
}
