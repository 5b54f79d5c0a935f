using System.Data.Common;
using System.Threading.Channels;
using Npgsql;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>
/// The other portals on the same database. What one says after a commit all others hear within a moment, by the database's own
/// notifications. A word lost on the way loses only time: after every break <see cref="Back"/> tells that anything may have been said.
/// On SQLite there is one portal and nobody to tell.
/// </summary>
public sealed class Neighbours(DatabaseChoice database, TimeProvider time, ILogger<Neighbours> log) : BackgroundService
{
    private const string Channel = "tankside";

    private static readonly TimeSpan[] Waits = [.. new[] { 1, 2, 5, 10, 30 }.Select(s => TimeSpan.FromSeconds(s))];

    /// <summary>Tells its own words from those of others.</summary>
    private readonly string me = Guid.NewGuid().ToString("N");

    /// <summary>Full only when the database is away for long; then the next word after it comes back tells everything.</summary>
    private readonly Channel<string> toSay = System.Threading.Channels.Channel.CreateBounded<string>(
        new BoundedChannelOptions(1000) { FullMode = BoundedChannelFullMode.DropOldest });

    /// <summary>Taken from the queue and not said yet: what is asked for several times in one breath is said once.</summary>
    private readonly HashSet<string> unsaid = [];

    /// <summary>Another portal said a word.</summary>
    public event Action<string>? Heard;

    /// <summary>Listening begins, or begins again after a break in which words may have been missed.</summary>
    public event Action? Back;

    /// <summary>Says a word to all other portals, soon; it does not wait and does not fail.</summary>
    public void Say(string word)
    {
        if (database.Kind == DatabaseKind.PostgreSQL)
        {
            toSay.Writer.TryWrite(word);
        }
    }

    protected override Task ExecuteAsync(CancellationToken stoppingToken) => database.Kind switch
    {
        DatabaseKind.PostgreSQL => Task.WhenAll(KeepAsync(ListenAsync, stoppingToken), KeepAsync(SpeakAsync, stoppingToken)),
        DatabaseKind.Sqlite => Task.CompletedTask,
    };

    /// <summary>Begins again whenever the database was away, each time after a longer wait.</summary>
    private async Task KeepAsync(Func<Action, CancellationToken, Task> act, CancellationToken stop)
    {
        var failures = 0;
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await act(() => failures = 0, stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or IOException or TimeoutException or InvalidOperationException)
            {
                log.LogWarning("The other portals are out of hearing ({Trouble}); trying again", e.GetType().Name);
                await Task.Delay(Waits[Math.Min(failures++, Waits.Length - 1)], time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private async Task ListenAsync(Action good, CancellationToken stop)
    {
        await using var connection = new NpgsqlConnection(OwnConnection());
        connection.Notification += (_, note) => Hear(note.Payload);
        await connection.OpenAsync(stop);
        await using (var listen = new NpgsqlCommand($"LISTEN {Channel}", connection))
        {
            await listen.ExecuteNonQueryAsync(stop);
        }

        good();
        Back?.Invoke();
        while (true)
        {
            await connection.WaitAsync(stop);
        }
    }

    private async Task SpeakAsync(Action good, CancellationToken stop)
    {
        while (unsaid.Count > 0 || await toSay.Reader.WaitToReadAsync(stop))
        {
            await using var connection = new NpgsqlConnection(database.ConnectionString);
            await connection.OpenAsync(stop);
            while (toSay.Reader.TryRead(out var word))
            {
                unsaid.Add(word);
            }

            foreach (var word in unsaid)
            {
                await using var notify = new NpgsqlCommand("SELECT pg_notify($1, $2)", connection)
                {
                    Parameters = { new() { Value = Channel }, new() { Value = $"{me} {word}" } },
                };
                await notify.ExecuteNonQueryAsync(stop);
            }

            unsaid.Clear();
            good();
        }
    }

    private void Hear(string payload)
    {
        if (payload.Split(' ', 2) is [var who, var word] && who != me)
        {
            Heard?.Invoke(word);
        }
    }

    /// <summary>A connection that lives as long as the portal is not taken from the pool, and notices by itself when the other end is gone.</summary>
    private string OwnConnection() => new NpgsqlConnectionStringBuilder(database.ConnectionString) { Pooling = false, KeepAlive = 10 }.ConnectionString;
}
