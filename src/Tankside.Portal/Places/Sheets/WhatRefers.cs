using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// What has come to depend on places. The model itself is asked which columns name a school or a tank, because most of them belong to words
/// that places do not know.
/// </summary>
public static class WhatRefers
{
    /// <param name="ending">How such columns end: "SchoolId".</param>
    /// <param name="except">Kinds of rows that do not count.</param>
    /// <returns>By id what refers to it, in words.</returns>
    public static async Task<Dictionary<Guid, string>> ToAsync(
        HatcheryDb db, IReadOnlyCollection<Guid> ids, string ending, IReadOnlyCollection<Type> except, CancellationToken cancel)
    {
        var found = new Dictionary<Guid, SortedSet<string>>();
        foreach (var column in db.Model.GetEntityTypes().Where(t => !except.Contains(t.ClrType) && !t.IsOwned()).SelectMany(t => t.GetProperties())
            .Where(p => p.Name.EndsWith(ending, StringComparison.Ordinal) && (p.ClrType == typeof(Guid) || p.ClrType == typeof(Guid?))))
        {
            foreach (var id in await (Task<List<Guid>>)typeof(WhatRefers).GetMethod(nameof(NamedAsync), System.Reflection.BindingFlags.NonPublic | System.Reflection.BindingFlags.Static)!
                .MakeGenericMethod(column.DeclaringType.ClrType).Invoke(null, [db, column, ids, cancel])!)
            {
                found.TryAdd(id, new SortedSet<string>(StringComparer.Ordinal));
                found[id].Add(Headings.Plain(((IEntityType)column.DeclaringType).ClrType.Name));
            }
        }

        return found.ToDictionary(f => f.Key, f => $"It stays: it is in use by now ({string.Join(", ", f.Value)}).");
    }

    private static Task<List<Guid>> NamedAsync<T>(HatcheryDb db, IProperty column, IReadOnlyCollection<Guid> ids, CancellationToken cancel)
        where T : class
    {
        var row = Expression.Parameter(typeof(T));
        var named = Expression.Call(typeof(EF), nameof(EF.Property), [typeof(Guid?)], row, Expression.Constant(column.Name));
        return db.Set<T>().AsNoTracking().Select(Expression.Lambda<Func<T, Guid?>>(named, row))
            .Where(id => id != null && ids.Contains(id.Value)).Select(id => id!.Value).Distinct().ToListAsync(cancel);
    }
}
