using System.Collections.Concurrent;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>The word that an import was started on this portal. Missed, it is found in the database.</summary>
public sealed class ImportQueue
{
    private readonly Bell bell = new();
    private readonly ConcurrentDictionary<Guid, bool> started = new();

    public void Add(Guid import)
    {
        started[import] = true;
        bell.Ring();
    }

    /// <summary>True, once, for an import that was started here.</summary>
    public bool Take(Guid import) => started.TryRemove(import, out _);

    public Task<bool> WaitAsync(TimeSpan atMost, TimeProvider time, CancellationToken cancel) => bell.WaitAsync(atMost, time, cancel);
}
