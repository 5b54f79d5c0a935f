using System.Collections.Concurrent;
using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace Tankside.Storage;

/// <summary>
/// A question of pages that are opened all day. An ordinary one is taken apart each time it is asked, to find what EF made of it before; this one is
/// made once for each kind of database that the process meets (EF takes one of another model for a mistake).
/// </summary>
/// <typeparam name="TArg">What it is asked with: a single value or a list of them, never an object whose parts the question looks into.</typeparam>
/// <typeparam name="TRow">What it gives.</typeparam>
public sealed class Compiled<TArg, TRow>(Expression<Func<HatcheryDb, TArg, IQueryable<TRow>>> question)
{
    private readonly ConcurrentDictionary<IModel, Func<HatcheryDb, TArg, IAsyncEnumerable<TRow>>> made = new();

    public Task<List<TRow>> ToListAsync(HatcheryDb db, TArg arg, CancellationToken cancel) =>
        Compiled.ListAsync(made.GetOrAdd(db.Model, _ => EF.CompileAsyncQuery(question))(db, arg), cancel);
}

/// <summary>The same with two values.</summary>
public sealed class Compiled<TFirst, TSecond, TRow>(Expression<Func<HatcheryDb, TFirst, TSecond, IQueryable<TRow>>> question)
{
    private readonly ConcurrentDictionary<IModel, Func<HatcheryDb, TFirst, TSecond, IAsyncEnumerable<TRow>>> made = new();

    public Task<List<TRow>> ToListAsync(HatcheryDb db, TFirst first, TSecond second, CancellationToken cancel) =>
        Compiled.ListAsync(made.GetOrAdd(db.Model, _ => EF.CompileAsyncQuery(question))(db, first, second), cancel);
}

/// <summary>The same with three values.</summary>
public sealed class Compiled<TFirst, TSecond, TThird, TRow>(Expression<Func<HatcheryDb, TFirst, TSecond, TThird, IQueryable<TRow>>> question)
{
    private readonly ConcurrentDictionary<IModel, Func<HatcheryDb, TFirst, TSecond, TThird, IAsyncEnumerable<TRow>>> made = new();

    public Task<List<TRow>> ToListAsync(HatcheryDb db, TFirst first, TSecond second, TThird third, CancellationToken cancel) =>
        Compiled.ListAsync(made.GetOrAdd(db.Model, _ => EF.CompileAsyncQuery(question))(db, first, second, third), cancel);
}

internal static class Compiled
{
    public static async Task<List<TRow>> ListAsync<TRow>(IAsyncEnumerable<TRow> asked, CancellationToken cancel)
    {
        var rows = new List<TRow>();
        await foreach (var row in asked.WithCancellation(cancel))
        {
            rows.Add(row);
        }

        return rows;
    }
}
