using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Lets this portal's pages ask again after the other portals were out of hearing, and once a minute in any case: hours left shrink without
/// news, and a portal that died after a commit told nobody of it.
/// </summary>
public sealed class RoundRefresh(
    IDbContextFactory<HatcheryDb> databases, RoundFeed feed, Neighbours neighbours, TimeProvider time, ILogger<RoundRefresh> log) : BackgroundService
{
    private static readonly TimeSpan Minute = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        var bell = new Bell();
        neighbours.Back += bell.Ring;
        try
        {
            while (true)
            {
                await bell.WaitAsync(Minute, time, stoppingToken);
                await RefreshAsync(stoppingToken);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
        }
        finally
        {
            neighbours.Back -= bell.Ring;
        }
    }

    private async Task RefreshAsync(CancellationToken cancel)
    {
        if (!feed.HasListeners)
        {
            return;
        }

        try
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            feed.Refresh(await db.Programmes.Select(p => p.Id).ToListAsync(cancel));
        }
        catch (Exception e) when (e is DbException or InvalidOperationException or TimeoutException)
        {
            log.LogWarning("Pages could not be refreshed: {Trouble}", e.GetType().Name);
        }
    }
}
