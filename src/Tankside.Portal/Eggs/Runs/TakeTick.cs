using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Keeps what a driver ticked. The same tick again is the same tick; of two phones' ticks both are kept, and the custody says which counts.</summary>
public sealed class TakeTick(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>A phone that says it kept a tick for longer is not believed; its tick is of the moment it arrives.</summary>
    private static readonly TimeSpan LongestWait = TimeSpan.FromDays(RunBoard.DaysOpen + 1);

    private const int Tries = 3;

    /// <summary>Null when it was kept; else why not.</summary>
    public async Task<string?> HandleAsync(RunView view, RunDriver driver, IFormCollection fields, CancellationToken cancel)
    {
        if (!Guid.TryParse(fields["id"], out var id) || !Enum.TryParse<TickDeed>(fields["deed"], out var deed) || !Enum.IsDefined(deed))
        {
            return "This tick could not be read, and nothing was kept. Open the sheet again and tick once more.";
        }

        // One button for the whole round: every pack gets a tick of its own.
        var whole = fields["stop"] == "all";
        var stops = view.RoundOf(driver).Where(s => whole || s.Stop.Id.ToString() == fields["stop"]).Select(s => s.Stop.Id).ToList();
        if (stops.Count == 0)
        {
            // The round was planned anew after the phone had gone: the pack is in this car all the same.
            stops = [.. view.Stops.Where(s => s.Stop.Id.ToString() == fields["stop"]).Select(s => s.Stop.Id)];
        }

        if (stops.Count == 0)
        {
            return "This stop is not in the run. Nothing was kept; open the sheet again.";
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await KeepAsync([.. stops.Select(stop => new RunTick
        {
            Id = whole ? IdOf(id, stop) : id,
            RunId = view.Run.Id,
            StopId = stop,
            DriverId = driver.Id,
            Deed = deed,
            At = now - Waited(fields),
            ReceivedAt = now,
        })], cancel);
        return null;
    }

    private async Task KeepAsync(IReadOnlyList<RunTick> ticks, CancellationToken cancel)
    {
        for (var tried = 1; ; tried++)
        {
            try
            {
                await using var db = await databases.CreateDbContextAsync(cancel);
                var ids = ticks.Select(t => t.Id).ToList();
                var known = await db.RunTicks.Where(t => ids.Contains(t.Id)).Select(t => t.Id).ToListAsync(cancel);
                db.AddRange(ticks.Where(t => !known.Contains(t.Id)));
                await db.SaveChangesAsync(cancel);
                return;
            }
            catch (DbUpdateException e) when (tried < Tries && e.IsUniqueViolation())
            {
                // The same tick came twice at once; the next try finds it there.
            }
        }
    }

    /// <summary>How long it lay on the phone, by the phone's own clock at both ends, so that a wrong clock does not matter.</summary>
    private static TimeSpan Waited(IFormCollection fields)
    {
        if (!long.TryParse(fields["typedAt"], out var typed) || !long.TryParse(fields["sentAt"], out var sent))
        {
            return TimeSpan.Zero;
        }

        var waited = sent - typed;
        return waited > 0 && waited < LongestWait.TotalMilliseconds ? TimeSpan.FromMilliseconds(waited) : TimeSpan.Zero;
    }

    private static Guid IdOf(Guid id, Guid stop)
    {
        Span<byte> both = stackalloc byte[32];
        id.TryWriteBytes(both);
        stop.TryWriteBytes(both[16..]);
        return new Guid(SHA256.HashData(both).AsSpan(0, 16));
    }
}
