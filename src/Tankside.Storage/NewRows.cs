using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;

namespace Tankside.Storage;

/// <summary>
/// Many new rows at once. PostgreSQL takes each column as one array and a table in one statement, however many rows there are; a statement a
/// row cost more than everything else that a form needs. SQLite has no arrays and nothing to travel to: there they go the usual way.
/// </summary>
public static class NewRows
{
    /// <summary>
    /// Saves the rows and whatever else the context holds, all or nothing. Only for tables whose key the database gives; the key is not read
    /// back.
    /// </summary>
    /// <exception cref="DbUpdateException">As from <see cref="DbContext.SaveChangesAsync(CancellationToken)"/>; nothing was saved.</exception>
    public static async Task SaveWithAsync<TFirst, TSecond>(
        this HatcheryDb db, IReadOnlyList<TFirst> first, IReadOnlyList<TSecond> second, CancellationToken cancel)
        where TFirst : class
        where TSecond : class
    {
        if (!db.Database.IsNpgsql())
        {
            db.AddRange(first);
            db.AddRange(second);
            await db.SaveChangesAsync(cancel);
            return;
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        await using var batch = new NpgsqlBatch((NpgsqlConnection)db.Database.GetDbConnection(), (NpgsqlTransaction)transaction.GetDbTransaction());
        Add(batch, db, first);
        Add(batch, db, second);
        try
        {
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

    private static void Add<TRow>(NpgsqlBatch batch, HatcheryDb db, IReadOnlyList<TRow> rows)
        where TRow : class
    {
        if (rows.Count == 0)
        {
            return;
        }

        var entity = db.Model.FindEntityType(typeof(TRow)) ?? throw new InvalidOperationException($"{typeof(TRow).Name} is no table");
        var table = entity.GetOrAddRuntimeAnnotationValue("Tankside:NewRows", _ => new Table(entity), entity);
        batch.BatchCommands.Add(table.Insert(rows));
    }

    private sealed class Table
    {
        private readonly string insert;
        private readonly List<Column> columns;

        public Table(IEntityType entity)
        {
            var place = StoreObjectIdentifier.Create(entity, StoreObjectType.Table) ?? throw new InvalidOperationException($"{entity.Name} is no table");
            var given = entity.GetFlattenedProperties().Where(p => p.ValueGenerated == ValueGenerated.Never).ToList();
            columns = [.. given.Select(p => new Column(entity.ClrType, p))];
            var names = given.Select(p => $"\"{p.GetColumnName(place)}\"");
            var arrays = Enumerable.Range(1, given.Count).Select(i => $"${i}");
            insert = $"INSERT INTO \"{place.Name}\" ({string.Join(", ", names)}) SELECT * FROM unnest({string.Join(", ", arrays)})";
        }

        public NpgsqlBatchCommand Insert(IReadOnlyList<object> rows)
        {
            var command = new NpgsqlBatchCommand(insert);
            foreach (var column in columns)
            {
                command.Parameters.Add(new NpgsqlParameter { Value = column.Of(rows) });
            }

            return command;
        }
    }

    /// <summary>One property of the rows, also one inside another, as its database type.</summary>
    private sealed class Column
    {
        private readonly Func<object, object?> get;
        private readonly Func<object?, object?> convert;
        private readonly Type element;

        public Column(Type rowType, IProperty property)
        {
            var row = Expression.Parameter(typeof(object));
            get = Expression.Lambda<Func<object, object?>>(Expression.Convert(Path(Expression.Convert(row, rowType), property), typeof(object)), row).Compile();
            var converter = property.GetTypeMapping().Converter;
            convert = converter is null ? value => value : converter.ConvertToProvider;
            var type = converter?.ProviderClrType ?? property.ClrType;
            element = type.IsValueType && Nullable.GetUnderlyingType(type) is null ? typeof(Nullable<>).MakeGenericType(type) : type;
        }

        public Array Of(IReadOnlyList<object> rows)
        {
            var values = Array.CreateInstance(element, rows.Count);
            for (var i = 0; i < rows.Count; i++)
            {
                values.SetValue(convert(get(rows[i])), i);
            }

            return values;
        }

        private static Expression Path(Expression row, IPropertyBase property) => Expression.Property(
            property.DeclaringType is IComplexType inner ? Path(row, inner.ComplexProperty) : row,
            property.PropertyInfo ?? throw new InvalidOperationException($"{property.Name} is not a property of its class"));
    }
}
