using System.Globalization;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>
/// Whether one database host is the primary and the others keep up with it. A replica is late by the time since the primary wrote what the replica
/// has not carried out yet; what the primary had is remembered from look to look, so a quiet primary makes nobody late.
/// </summary>
public sealed class ReplicaCheck(DatabaseChoice database, TimeProvider time) : IHealthCheck, IDisposable
{
    /// <summary>A copy that is a minute behind is not what whoever promotes it thinks it is (common practice, no source).</summary>
    private static readonly TimeSpan Late = TimeSpan.FromMinutes(1);

    /// <summary>Probes come every few seconds from several sides; the hosts are asked no oftener than this.</summary>
    private static readonly TimeSpan Again = TimeSpan.FromSeconds(5);

    private const int MostRemembered = 1000;

    private readonly SemaphoreSlim one = new(1);

    /// <summary>What the primary had written when it was asked, and the slowest replica has not carried out yet.</summary>
    private readonly List<(ulong Position, DateTime At)> unreached = [];
    private (HealthCheckResult Result, DateTime At)? last;

    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        await one.WaitAsync(cancellationToken);
        try
        {
            var now = time.GetUtcNow().UtcDateTime;
            if (last is not { } known || now - known.At >= Again || now < known.At)
            {
                last = (Result(await DatabaseHosts.AskAsync(database, cancellationToken), now), now);
            }

            return last.Value.Result;
        }
        finally
        {
            one.Release();
        }
    }

    public void Dispose() => one.Dispose();

    private HealthCheckResult Result(DatabaseHost[] hosts, DateTime now)
    {
        var (primaries, replicas, silent) = (Of(HostState.Primary), Of(HostState.Replica), Of(HostState.Silent));
        if (primaries.Length != 1)
        {
            return HealthCheckResult.Degraded(primaries.Length == 0 ? "no host is the primary" : "several hosts say they are the primary");
        }

        var newest = primaries[0].Position;
        var slowest = replicas.Select(r => r.Position).Append(newest).Min();
        Remember(newest, slowest, now);
        var behind = unreached.Count > 0 ? now - unreached[0].At : TimeSpan.Zero;
        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"{replicas.Length} of {hosts.Length - 1} replicas answer, the slowest is {behind.TotalSeconds:0} s and {(newest - slowest) >> 10} KB behind");
        return silent.Length > 0 || behind > Late ? HealthCheckResult.Degraded(words) : HealthCheckResult.Healthy(words);

        DatabaseHost[] Of(HostState state) => [.. hosts.Where(h => h.State == state)];
    }

    private void Remember(ulong newest, ulong slowest, DateTime now)
    {
        // A replica that was promoted goes on where the old primary may have been further.
        unreached.RemoveAll(w => w.Position <= slowest || w.Position > newest);
        if (newest > slowest && (unreached.Count == 0 || unreached[^1].Position < newest))
        {
            unreached.Add((newest, now));
        }

        if (unreached.Count > MostRemembered)
        {
            unreached.RemoveAt(1); // Never the first: how late is told from it.
        }
    }
}
