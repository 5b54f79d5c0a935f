using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// Imports that wait to be stored or went no further. One that another portal works on moves between two looks; one that does not was left,
/// and is taken up.
/// </summary>
public sealed class WaitingImports(IServiceScopeFactory scopes, IDbContextFactory<HatcheryDb> databases, ImportQueue queue, ILogger<WaitingImports> log)
{
    private Dictionary<Guid, int> lastSeen = [];

    /// <summary>One look; gives how many imports it worked on.</summary>
    public async Task<int> StoreAsync(CancellationToken cancel)
    {
        Dictionary<Guid, int> running;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            running = await db.ReadingImports.Where(i => i.State == ImportState.Running).ToDictionaryAsync(i => i.Id, i => i.Version, cancel);
        }

        var before = lastSeen;
        lastSeen = running;
        var mine = running.Where(r => queue.Take(r.Key) || (before.TryGetValue(r.Key, out var version) && version == r.Value)).Select(r => r.Key).ToList();
        foreach (var import in mine)
        {
            try
            {
                await using var scope = scopes.CreateAsyncScope();
                await scope.ServiceProvider.GetRequiredService<StoreRows>().RunAsync(import, cancel);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // It stays as far as it came and is tried again; those behind it do not wait for it.
                log.LogError(e, "Import {Import} could not go on; trying again soon", import);
            }
        }

        return mine.Count;
    }
}
