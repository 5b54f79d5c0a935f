using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Keys that come while others are looked up are looked up together, each as it is after it came.</summary>
public class KeysTogetherTests
{
    [Theory, BothDatabases]
    public async Task What_comes_during_a_look_up_shares_the_next_and_each_is_told_of_its_own_key(DatabaseKind kind)
    {
        var held = new HeldLookUp();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Services = s => s.AddSingleton<IInterceptor>(held) });
        await using var _ = host;
        var keys = host.Services.GetRequiredService<KeysTogether>();
        var (logger, coordinator) = (Secrets.Hash(world.One.LoggerKey), Secrets.Hash(world.Two.CoordinatorKey));

        held.IsHeld = true;
        var first = keys.FindAsync(logger);
        await held.Reached.Task.WaitAsync(TimeSpan.FromSeconds(30));
        Task<KeysTogether.Known?>[] later = [keys.FindAsync(logger), keys.FindAsync(coordinator), keys.FindAsync("of no key"), keys.FindAsync(logger)];
        held.LetGo();

        Assert.Equal(ApiKeyRole.Logger, (await first)!.Key.Role);
        var found = await Task.WhenAll(later);
        Assert.Equal([ApiKeyRole.Logger, ApiKeyRole.Coordinator, null, ApiKeyRole.Logger], found.Select(f => f?.Key.Role));
        Assert.Equal([world.One.Programme.Id, world.Two.Programme.Id, null, world.One.Programme.Id], found.Select(f => f?.Key.ProgrammeId));
        Assert.Equal(2, held.LookUps);
    }

    [Theory, BothDatabases]
    public async Task A_key_revoked_while_an_earlier_look_up_goes_on_is_revoked_for_whoever_comes_after(DatabaseKind kind)
    {
        var held = new HeldLookUp();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Services = s => s.AddSingleton<IInterceptor>(held) });
        await using var _ = host;
        var keys = host.Services.GetRequiredService<KeysTogether>();
        var hash = Secrets.Hash(world.One.LoggerKey);

        held.IsHeld = true;
        var before = keys.FindAsync(Secrets.Hash(world.Two.LoggerKey));
        await held.Reached.Task.WaitAsync(TimeSpan.FromSeconds(30));
        await using (var db = host.OpenDb())
        {
            await db.ApiKeys.Where(k => k.SecretHash == hash).ExecuteUpdateAsync(k => k.SetProperty(x => x.RevokedAt, host.Now));
        }

        var after = keys.FindAsync(hash);
        held.LetGo();

        Assert.Null((await before)!.Key.RevokedAt);
        Assert.Equal(host.Now, (await after)!.Key.RevokedAt);
    }

    /// <summary>Counts look-ups of keys, and holds the first while it is told to.</summary>
    private sealed class HeldLookUp : DbCommandInterceptor
    {
        private readonly TaskCompletionSource go = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public bool IsHeld { get; set; }

        public int LookUps { get; private set; }

        public TaskCompletionSource Reached { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);

        public void LetGo()
        {
            IsHeld = false;
            go.SetResult();
        }

        public override async ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
            DbCommand command, CommandEventData eventData, InterceptionResult<DbDataReader> result, CancellationToken cancellationToken = default)
        {
            if (command.CommandText.Contains("secret_hash", StringComparison.Ordinal))
            {
                LookUps++;
                if (IsHeld)
                {
                    Reached.TrySetResult();
                    await go.Task;
                }
            }

            return result;
        }
    }
}
