using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using NpgsqlTypes;

namespace Tankside.Storage;

/// <summary>
/// Many new rows at once. PostgreSQL takes a few as one array a column, a table in one statement, and many as a stream of binary rows; a
/// statement a row cost more than everything else that a form needs. SQLite has neither and nothing to travel to: there they go the usual way.
/// </summary>
public static class NewRows
{
    /// <summary>A stream begins and ends with a question and an answer of its own; for fewer rows than this the arrays are as quick.</summary>
    private const int Many = 50;

    /// <summary>
    /// Saves the rows and whatever else the context holds, all or nothing. Only for tables whose key the database gives or the row brings; a
    /// key that is given is not read back.
    /// </summary>
    /// <param name="tables">Rows, each list of one table; in the order in which they refer to one another.</param>
    /// <exception cref="DbUpdateException">As from <see cref="DbContext.SaveChangesAsync(CancellationToken)"/>; nothing was saved.</exception>
    public static async Task SaveWithAsync(this HatcheryDb db, IReadOnlyList<IReadOnlyList<object>> tables, CancellationToken cancel)
    {
        if (!db.Database.IsNpgsql())
        {
            foreach (var rows in tables)
            {
                db.AddRange(rows);
            }

            await db.SaveChangesAsync(cancel);
            return;
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        await using var batch = new NpgsqlBatch((NpgsqlConnection)db.Database.GetDbConnection(), (NpgsqlTransaction)transaction.GetDbTransaction());
        try
        {
            foreach (var rows in tables.Where(t => t.Count > 0))
            {
                await AddAsync(batch, TableOf(db, rows[0].GetType()), rows, cancel);
            }

            await (batch.BatchCommands.Count > 0 ? batch.ExecuteNonQueryAsync(cancel) : Task.FromResult(0));
        }
        catch (PostgresException e)
        {
            throw new DbUpdateException($"New rows could not be saved: {e.MessageText}", e);
        }

        if (db.ChangeTracker.HasChanges())
        {
            await db.SaveChangesAsync(cancel);
        }

        await transaction.CommitAsync(cancel);
    }

    /// <summary>True when so many rows go in as a stream, which is refused as a whole, and quickly, if one of them is there already.</summary>
    public static bool TakesStreamsOf(this HatcheryDb db, int rows) => rows >= Many && db.Database.IsNpgsql();

    private static async Task AddAsync(NpgsqlBatch batch, Table table, IReadOnlyList<object> rows, CancellationToken cancel)
    {
        if (rows.Count >= Many)
        {
            await table.CopyAsync(batch.Connection!, rows, cancel);
        }
        else
        {
            batch.BatchCommands.Add(table.Insert(rows));
        }
    }

    private static Table TableOf(HatcheryDb db, Type row)
    {
        var entity = db.Model.FindEntityType(row) ?? throw new InvalidOperationException($"{row.Name} is no table");
        return entity.GetOrAddRuntimeAnnotationValue("Tankside:NewRows", _ => new Table(entity), entity);
    }

    private sealed class Table
    {
        private readonly string name;
        private readonly List<Column> columns;

        public Table(IEntityType entity)
        {
            var place = StoreObjectIdentifier.Create(entity, StoreObjectType.Table) ?? throw new InvalidOperationException($"{entity.Name} is no table");
            var given = entity.GetFlattenedProperties().Where(p => p.ValueGenerated == ValueGenerated.Never || (p.ClrType == typeof(Guid) && p.IsPrimaryKey()));
            name = $"\"{place.Name}\"";
            columns = [.. given.Select(p => Column.Of(entity.ClrType, p, $"\"{p.GetColumnName(place)}\""))];
        }

        public NpgsqlBatchCommand Insert(IReadOnlyList<object> rows)
        {
            var used = UsedBy(rows);
            var command = new NpgsqlBatchCommand(
                $"INSERT INTO {name} ({Names(used)}) SELECT * FROM unnest({string.Join(", ", Enumerable.Range(1, used.Count).Select(i => $"${i}"))})");
            foreach (var column in used)
            {
                command.Parameters.Add(new NpgsqlParameter { Value = column.ArrayOf(rows) });
            }

            return command;
        }

        public async Task CopyAsync(NpgsqlConnection connection, IReadOnlyList<object> rows, CancellationToken cancel)
        {
            var used = UsedBy(rows);
            await using var copy = await connection.BeginBinaryImportAsync($"COPY {name} ({Names(used)}) FROM STDIN (FORMAT binary)", cancel);
            foreach (var row in rows)
            {
                await copy.StartRowAsync(cancel);
                foreach (var column in used)
                {
                    await column.WriteAsync(copy, row, cancel);
                }
            }

            await copy.CompleteAsync(cancel);
        }

        /// <summary>A reading has forty columns, of which a logger fills twelve: what no row says is not sent.</summary>
        private List<Column> UsedBy(IReadOnlyList<object> rows) => [.. columns.Where(c => rows.Any(c.IsIn))];

        private static string Names(List<Column> used) => string.Join(", ", used.Select(c => c.Name));
    }

    /// <summary>One property of the rows, also one inside another, as its database type.</summary>
    private abstract class Column(string name)
    {
        public string Name { get; } = name;

        /// <summary>False where the row leaves it out.</summary>
        public abstract bool IsIn(object row);

        public abstract Array ArrayOf(IReadOnlyList<object> rows);

        public abstract Task WriteAsync(NpgsqlBinaryImporter copy, object row, CancellationToken cancel);

        public static Column Of(Type rowType, IProperty property, string name)
        {
            var converter = property.GetTypeMapping().Converter;
            var stored = converter?.ProviderClrType ?? Nullable.GetUnderlyingType(property.ClrType) ?? property.ClrType;
            var kind = stored.IsValueType ? typeof(ValueColumn<>) : typeof(ReferenceColumn<>);
            return (Column)Activator.CreateInstance(kind.MakeGenericType(Nullable.GetUnderlyingType(stored) ?? stored), rowType, property, name)!;
        }

        /// <summary>Reads the property of a row and turns it into what is stored, null where it is absent.</summary>
        protected static Func<object, TStored> Getter<TStored>(Type rowType, IProperty property)
        {
            var row = Expression.Parameter(typeof(object));
            var value = Path(Expression.Convert(row, rowType), property);
            if (property.GetTypeMapping().Converter is not { } converter)
            {
                return Expression.Lambda<Func<object, TStored>>(Expression.Convert(value, typeof(TStored)), row).Compile();
            }

            var taken = converter.ModelClrType == value.Type ? value : Expression.Convert(value, converter.ModelClrType);
            Expression stored = Expression.Convert(Expression.Invoke(converter.ConvertToProviderExpression, taken), typeof(TStored));
            if (!value.Type.IsValueType || Nullable.GetUnderlyingType(value.Type) is not null)
            {
                stored = Expression.Condition(Expression.Equal(value, Expression.Constant(null, value.Type)), Expression.Default(typeof(TStored)), stored);
            }

            return Expression.Lambda<Func<object, TStored>>(stored, row).Compile();
        }

        protected static NpgsqlDbType TypeOf(IProperty property)
        {
            using var command = new NpgsqlCommand();
            return ((NpgsqlParameter)property.GetRelationalTypeMapping().CreateParameter(command, "p", null, nullable: true)).NpgsqlDbType;
        }

        private static Expression Path(Expression row, IPropertyBase property) => Expression.Property(
            property.DeclaringType is IComplexType inner ? Path(row, inner.ComplexProperty) : row,
            property.PropertyInfo ?? throw new InvalidOperationException($"{property.Name} is not a property of its class"));
    }

    private sealed class ValueColumn<T>(Type rowType, IProperty property, string name) : Column(name)
        where T : struct
    {
        private readonly Func<object, T?> get = Getter<T?>(rowType, property);
        private readonly NpgsqlDbType type = TypeOf(property);

        public override bool IsIn(object row) => get(row) is not null;

        public override Array ArrayOf(IReadOnlyList<object> rows) => rows.Select(get).ToArray();

        public override Task WriteAsync(NpgsqlBinaryImporter copy, object row, CancellationToken cancel) =>
            get(row) is { } value ? copy.WriteAsync(value, type, cancel) : copy.WriteNullAsync(cancel);
    }

    private sealed class ReferenceColumn<T>(Type rowType, IProperty property, string name) : Column(name)
        where T : class
    {
        private readonly Func<object, T?> get = Getter<T?>(rowType, property);
        private readonly NpgsqlDbType type = TypeOf(property);

        public override bool IsIn(object row) => get(row) is not null;

        public override Array ArrayOf(IReadOnlyList<object> rows) => rows.Select(get).ToArray();

        public override Task WriteAsync(NpgsqlBinaryImporter copy, object row, CancellationToken cancel) =>
            get(row) is { } value ? copy.WriteAsync(value, type, cancel) : copy.WriteNullAsync(cancel);
    }
}
