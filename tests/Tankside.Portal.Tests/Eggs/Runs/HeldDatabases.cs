using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Tankside.Portal.Eggs.Runs;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>
/// Lets whoever plans a run open the database as often as said, then only when told to: between the beginning of a planning, which opens it once,
/// and the keeping of its plan there is as much time as a test needs.
/// </summary>
internal sealed class HeldDatabases(int free) : IDisposable
{
    private readonly SemaphoreSlim turns = new(free);

    public PortalHostSettings Under => new()
    {
        Services = services => services
            .Replace(ServiceDescriptor.Singleton(new PlanPatience(TimeSpan.Zero, TimeSpan.Zero)))
            .Replace(ServiceDescriptor.Singleton(s => ActivatorUtilities.CreateInstance<PlanRun>(s, new Held(s.GetRequiredService<IDbContextFactory<HatcheryDb>>(), turns)))),
    };

    public void LetGo() => turns.Release();

    public void Dispose() => turns.Dispose();

    private sealed class Held(IDbContextFactory<HatcheryDb> databases, SemaphoreSlim turns) : IDbContextFactory<HatcheryDb>
    {
        public HatcheryDb CreateDbContext() => throw new NotSupportedException("A planning opens the database while it waits for nothing else.");

        public async Task<HatcheryDb> CreateDbContextAsync(CancellationToken cancellationToken = default)
        {
            await turns.WaitAsync(cancellationToken);
            return await databases.CreateDbContextAsync(cancellationToken);
        }
    }
}
