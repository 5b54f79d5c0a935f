using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Telemetry;

namespace Tankside.Portal.Flags;

/// <summary>How the judge is doing, for the foot of the round: a round that nobody judges any more must say so itself.</summary>
public sealed class JudgeHealth
{
    /// <summary>When the worker began; null where none works.</summary>
    public DateTime? BeganAt { get; set; }

    public DateTime? LastSweepAt { get; set; }

    /// <summary>How long the last one took.</summary>
    public TimeSpan? Took { get; set; }

    public string? Trouble { get; set; }
}

/// <summary>Runs the judge: at once when a reading was stored, and over every tank by the clock.</summary>
public sealed class JudgeWorker(Judge judge, NewFacts newFacts, TimeProvider time, JudgeHealth health, PortalMeter meter, ILogger<JudgeWorker> log) : BackgroundService
{
    /// <summary>How often every tank is judged by the clock. Flags that hang on the clock are good to a minute.</summary>
    public static readonly TimeSpan Sweep = TimeSpan.FromMinutes(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Not by the hands of the clock: put back an hour, nobody would be judged for that hour.
        long? swept = null;
        health.BeganAt = time.GetUtcNow().UtcDateTime;
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                if (swept is not { } before || time.GetElapsedTime(before) >= Sweep)
                {
                    var seconds = (await judge.JudgeAllAsync(stoppingToken)).Seconds;
                    meter.Swept(seconds);
                    swept = time.GetTimestamp();
                    health.Took = TimeSpan.FromSeconds(seconds);
                    health.LastSweepAt = time.GetUtcNow().UtcDateTime;
                }

                await judge.JudgeNewFactsAsync(stoppingToken);
                health.Trouble = null;
                await newFacts.WaitAsync(Sweep, time, stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or DbUpdateException or InvalidOperationException or TimeoutException)
            {
                // The database is away; the facts wait in it. Say so, and look again soon.
                health.Trouble = e.GetType().Name;
                log.LogError(e, "Judging failed; trying again in five seconds");
                await Task.Delay(TimeSpan.FromSeconds(5), time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
