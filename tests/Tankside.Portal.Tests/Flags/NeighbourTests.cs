using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags;
using Tankside.Portal.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>Two portals on one PostgreSQL database hear of each other's work within moments.</summary>
public class NeighbourTests
{
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(20);

    [PostgresFact]
    public async Task A_page_at_one_portal_is_told_what_the_other_has_judged()
    {
        var (first, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.PostgreSQL);
        await using var _ = first;
        await using var second = first.Neighbour();
        await ListeningAsync(first, second);
        var told = Told(second, world.One.Programme.Id);

        await first.AcceptAsync(Sent.Water(world.One.Tanks[0], first.Now.AddMinutes(-5), 13));
        await first.JudgeAsync();
        await told.WaitAsync(Moment);

        // Whoever asks again on being told finds the change.
        Assert.Single(await second.CallAsync<Round, RoundNow>(r => r.LoadAsync(world.One.Programme.Id, CancellationToken.None)) is var round ? round.Calls : []);
    }

    [PostgresFact]
    public async Task A_reading_taken_at_one_portal_is_judged_at_once_by_the_other_that_works()
    {
        var (first, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.PostgreSQL);
        await using var _ = first;
        await using var second = first.Neighbour(new PortalHostSettings { JudgeWorks = true });
        await ListeningAsync(first, second);
        await SweptAsync(second);
        var told = Told(first, world.One.Programme.Id);

        // The clock of the second stands still: no sweep finds it, only the word does.
        await first.AcceptAsync(Sent.Water(world.One.Tanks[0], first.Now.AddMinutes(-5), 13));
        await told.WaitAsync(Moment);

        Assert.Equal([FlagDeed.Opened], await first.DeedsAsync(Assert.Single(await first.FlagsAsync(FlagKind.Warm))));
    }

    [PostgresFact]
    public async Task After_a_broken_line_it_listens_again_and_lets_its_pages_ask_anew()
    {
        var (first, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.PostgreSQL);
        await using var _ = first;
        await using var second = first.Neighbour();
        await ListeningAsync(first, second);
        var told = Told(second, world.One.Programme.Id);

        await CutLinesAsync(first);
        second.Time.Advance(TimeSpan.FromSeconds(2));
        for (var deadline = DateTime.UtcNow + Moment; !told.IsCompleted && DateTime.UtcNow < deadline; await Task.Delay(25))
        {
            second.Time.Advance(TimeSpan.FromSeconds(1)); // The wait before it tries again is by the portal's clock.
        }

        Assert.True(told.IsCompletedSuccessfully);
    }

    /// <summary>Completes when the portal's pages are told of the programme.</summary>
    private static Task Told(PortalHost host, Guid programme)
    {
        var told = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        host.Services.GetRequiredService<RoundFeed>().Changed += changed =>
        {
            if (changed == programme)
            {
                told.TrySetResult();
            }
        };
        return told.Task;
    }

    /// <summary>Starts the portals and looks until the database has a listener for each.</summary>
    private static async Task ListeningAsync(params PortalHost[] portals)
    {
        Assert.All(portals, p => Assert.NotNull(p.Services.GetRequiredService<NewFacts>()));
        await LookAsync(async () => await ListenersAsync(portals[0]) >= portals.Length);
    }

    private static Task SweptAsync(PortalHost host) =>
        LookAsync(() => Task.FromResult(host.Services.GetRequiredService<JudgeHealth>().LastSweepAt is not null));

    private static async Task LookAsync(Func<Task<bool>> there)
    {
        for (var deadline = DateTime.UtcNow + Moment; !await there(); await Task.Delay(25))
        {
            Assert.True(DateTime.UtcNow < deadline, "It did not come about in time.");
        }
    }

    private static Task<long> ListenersAsync(PortalHost host) =>
        CountAsync(host, "SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND query = 'LISTEN tankside'");

    private static Task<long> CutLinesAsync(PortalHost host) => CountAsync(
        host, "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE datname = current_database() AND query = 'LISTEN tankside'");

    private static async Task<long> CountAsync(PortalHost host, string query)
    {
        await using var connection = new NpgsqlConnection(host.Database.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(query, connection);
        return (long)(await command.ExecuteScalarAsync())!;
    }
}
