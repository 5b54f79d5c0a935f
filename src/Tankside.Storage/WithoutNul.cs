using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Tankside.Storage;

/// <summary>
/// Leaves a NUL out of every text on its way to the database. No keyboard makes one, but an address or a form can carry it; PostgreSQL refuses the
/// whole statement for it, which would be a mistake of ours to whoever sent it, and SQLite reads such a text only so far.
/// </summary>
public sealed class WithoutNul : DbCommandInterceptor
{
    public override InterceptionResult<DbDataReader> ReaderExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result)
    {
        Clean(command);
        return result;
    }

    public override ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
    {
        Clean(command);
        return ValueTask.FromResult(result);
    }

    public override InterceptionResult<int> NonQueryExecuting(DbCommand command, CommandEventData eventData, InterceptionResult<int> result)
    {
        Clean(command);
        return result;
    }

    public override ValueTask<InterceptionResult<int>> NonQueryExecutingAsync(
        DbCommand command, CommandEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        Clean(command);
        return ValueTask.FromResult(result);
    }

    private static void Clean(DbCommand command)
    {
        foreach (DbParameter parameter in command.Parameters)
        {
            if (parameter.Value is string text && text.Contains('\0', StringComparison.Ordinal))
            {
                parameter.Value = text.Replace("\0", "", StringComparison.Ordinal);
            }
        }
    }
}
