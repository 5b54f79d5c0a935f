using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Tankside.Storage;

/// <summary>
/// While no primary answers, because one fell and its replica is being made the next, whoever opens a connection waits instead of being
/// refused. After <see cref="Patience"/> without a primary everybody is refused at once: then somebody has to look.
/// </summary>
public sealed class WaitsForPrimary(TimeProvider time) : DbConnectionInterceptor
{
    /// <summary>Counted from when it was missed first, so that nobody queues behind a database that stays away.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(200);

    /// <summary>When it was missed first, as a timestamp, which no jump of the clock moves; 0 while it answers.</summary>
    private long awaySince;

    public override async ValueTask<InterceptionResult> ConnectionOpeningAsync(
        DbConnection connection, ConnectionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default)
    {
        for (; ; )
        {
            try
            {
                await connection.OpenAsync(cancellationToken);
                Interlocked.Exchange(ref awaySince, 0);
                return InterceptionResult.Suppress();
            }
            catch (DbException e) when (DatabaseAway.Is(e) && IsWorthWaiting())
            {
                await Task.Delay(Look, time, cancellationToken);
            }
        }
    }

    private bool IsWorthWaiting()
    {
        var now = time.GetTimestamp();
        var since = Interlocked.CompareExchange(ref awaySince, now, 0);
        return since == 0 || time.GetElapsedTime(since, now) < Patience;
    }
}
