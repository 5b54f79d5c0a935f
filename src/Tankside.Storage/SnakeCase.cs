using Microsoft.EntityFrameworkCore;

namespace Tankside.Storage;

/// <summary>Table and column names as people type them in psql: lower case with underscores, never quoted.</summary>
internal static class SnakeCase
{
    public static void Apply(ModelBuilder builder)
    {
        foreach (var entity in builder.Model.GetEntityTypes().Where(e => !e.IsMappedToJson()))
        {
            if (entity.GetTableName() is { } table)
            {
                entity.SetTableName(Of(table));
            }

            foreach (var property in entity.GetProperties().Concat(entity.GetComplexProperties().SelectMany(c => c.ComplexType.GetProperties())))
            {
                property.SetColumnName(Of(property.Name));
            }

            foreach (var key in entity.GetKeys())
            {
                key.SetName(Of(key.GetName()!));
            }

            foreach (var index in entity.GetIndexes())
            {
                index.SetDatabaseName(Of(index.GetDatabaseName()!));
            }

            foreach (var foreign in entity.GetForeignKeys())
            {
                foreign.SetConstraintName(Of(foreign.GetConstraintName()!));
            }
        }
    }

    public static string Of(string name)
    {
        var plain = name.Replace("AspNet", "", StringComparison.Ordinal);
        return string.Concat(plain.Select((c, i) =>
            char.IsUpper(c) ? (i > 0 && plain[i - 1] != '_' && !char.IsUpper(plain[i - 1]) ? "_" : "") + char.ToLowerInvariant(c) : c.ToString()));
    }
}
