using System.Data.Common;
using Microsoft.EntityFrameworkCore;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>Sends letters: at once when one was put in, and by the clock those that waited or that another portal left.</summary>
public sealed class OutboxWorker(Outbox outbox, SendLetters letters, TimeProvider time, ILogger<OutboxWorker> log) : BackgroundService
{
    /// <summary>How often the outbox is looked through.</summary>
    public static readonly TimeSpan Look = TimeSpan.FromSeconds(15);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await letters.SendDueAsync(stoppingToken);
                await outbox.WaitAsync(Look, stoppingToken);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
            catch (Exception e) when (e is DbException or DbUpdateException or InvalidOperationException or TimeoutException)
            {
                // The database is away; the letters wait in it.
                log.LogError(e, "The outbox could not be looked through; trying again soon");
                await Task.Delay(Look, time, stoppingToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
