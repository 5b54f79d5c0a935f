using System.Data.Common;
using Microsoft.Data.Sqlite;
using Npgsql;
using NpgsqlTypes;
using Tankside.Storage;

namespace Tankside.Load;

/// <summary>A row of the table of readings with the columns that a logger fills, written by the driver alone.</summary>
public sealed record BareReading(Guid Sender, Guid Tank, DateTime At, DateTime ReceivedAt, double WaterC, double RoomC, bool ChillerRunning)
{
    private const string Columns =
        "sender_id, tank_id, at, received_at, source, state, typed_water, typed_unit, content_hash, water_c, room_c, chiller_running";

    private const string Insert =
        $"INSERT INTO readings ({Columns}) VALUES (@sender, @tank, @at, @received, 'Logger', 'Accepted', @typed, 'C', @hash, @water, @room, @chiller)";

    /// <summary>As long as a real one; its value does not matter here.</summary>
    private string Hash => Sender.ToString("n");

    private string Typed => FormattableString.Invariant($"{WaterC}");

    public static DbConnection NewConnection(DatabaseChoice choice) => choice.Kind switch
    {
        DatabaseKind.Sqlite => new SqliteConnection(choice.ConnectionString),
        DatabaseKind.PostgreSQL => new NpgsqlConnection(choice.ConnectionString),
    };

    /// <summary>One row, committed.</summary>
    public async Task InsertAsync(DatabaseChoice choice)
    {
        await using var connection = NewConnection(choice);
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = Insert;
        Fill(command);
        await command.ExecuteNonQueryAsync();
    }

    /// <summary>Many rows as fast as the driver can: binary COPY, or on SQLite one prepared statement in one transaction.</summary>
    public static Task BulkAsync(DatabaseChoice choice, IEnumerable<BareReading> rows) => choice.Kind switch
    {
        DatabaseKind.Sqlite => InOneTransactionAsync(choice, rows),
        DatabaseKind.PostgreSQL => CopyAsync(choice, rows),
    };

    private static async Task CopyAsync(DatabaseChoice choice, IEnumerable<BareReading> rows)
    {
        await using var connection = new NpgsqlConnection(choice.ConnectionString);
        await connection.OpenAsync();
        await using var copy = await connection.BeginBinaryImportAsync($"COPY readings ({Columns}) FROM STDIN (FORMAT binary)");
        foreach (var row in rows)
        {
            await copy.StartRowAsync();
            await copy.WriteAsync(row.Sender, NpgsqlDbType.Uuid);
            await copy.WriteAsync(row.Tank, NpgsqlDbType.Uuid);
            await copy.WriteAsync(row.At, NpgsqlDbType.TimestampTz);
            await copy.WriteAsync(row.ReceivedAt, NpgsqlDbType.TimestampTz);
            await copy.WriteAsync("Logger", NpgsqlDbType.Varchar);
            await copy.WriteAsync("Accepted", NpgsqlDbType.Varchar);
            await copy.WriteAsync(row.Typed, NpgsqlDbType.Varchar);
            await copy.WriteAsync("C", NpgsqlDbType.Varchar);
            await copy.WriteAsync(row.Hash, NpgsqlDbType.Varchar);
            await copy.WriteAsync(row.WaterC, NpgsqlDbType.Double);
            await copy.WriteAsync(row.RoomC, NpgsqlDbType.Double);
            await copy.WriteAsync(row.ChillerRunning, NpgsqlDbType.Boolean);
        }

        await copy.CompleteAsync();
    }

    private static async Task InOneTransactionAsync(DatabaseChoice choice, IEnumerable<BareReading> rows)
    {
        await using var connection = NewConnection(choice);
        await connection.OpenAsync();
        await using var transaction = await connection.BeginTransactionAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = Insert;
        command.Transaction = transaction;
        foreach (var row in rows)
        {
            command.Parameters.Clear();
            row.Fill(command);
            await command.ExecuteNonQueryAsync();
        }

        await transaction.CommitAsync();
    }

    private void Fill(DbCommand command)
    {
        (string Name, object Value)[] values =
        [
            ("sender", Sender), ("tank", Tank), ("at", At), ("received", ReceivedAt), ("typed", Typed), ("hash", Hash), ("water", WaterC),
            ("room", RoomC), ("chiller", ChillerRunning),
        ];
        foreach (var (name, value) in values)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            parameter.Value = value;
            command.Parameters.Add(parameter);
        }
    }
}
