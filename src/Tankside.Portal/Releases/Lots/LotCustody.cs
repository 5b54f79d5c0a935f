using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

/// <summary>Fish of a lot that were moved on to another tank.</summary>
/// <param name="Fish">What stands of the move after corrections.</param>
/// <param name="By">Who entered it; null for somebody who left.</param>
public sealed record LotMove(DateTime At, int Fish, bool About, string From, string To, string? By);

/// <summary>Through whose hands a lot went.</summary>
/// <param name="Drivers">By the tank's code, who carried its pack; in brackets while that is only planned.</param>
public sealed record LotHands(IReadOnlyDictionary<string, string> Drivers, IReadOnlyList<LotMove> Moves);

/// <summary>The part of a lot's way that its receipts do not tell: the drivers before, the moves after.</summary>
public sealed class LotCustody(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<LotHands> LoadAsync(CurrentUser user, EggLot lot, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return new LotHands(await DriversAsync(db, lot.Id, cancel), await MovesAsync(db, user.ProgrammeId, lot, cancel));
    }

    private static async Task<IReadOnlyDictionary<string, string>> DriversAsync(HatcheryDb db, Guid lotId, CancellationToken cancel)
    {
        var stops = await (
            from stop in db.RunStops.AsNoTracking()
            join tank in db.Tanks on stop.TankId equals tank.Id
            where stop.LotId == lotId && stop.OutAt == null
            select new { Stop = stop, tank.Code }).ToListAsync(cancel);
        var runs = stops.Select(s => s.Stop.RunId).Distinct().ToList();
        var ticks = await db.RunTicks.AsNoTracking().Where(t => runs.Contains(t.RunId)).ToListAsync(cancel);
        var names = await db.RunDrivers.AsNoTracking().Where(d => runs.Contains(d.RunId)).ToDictionaryAsync(d => d.Id, d => d.Name, cancel);
        return stops.Select(s => (s.Code, Name: Carried(s.Stop))).Where(s => s.Name is not null)
            .GroupBy(s => s.Code).ToDictionary(g => g.Key, g => string.Join(", ", g.Select(s => s.Name).Distinct()));

        string? Carried(RunStop stop) =>
            Custody.Of(stop.Id, stop.Eggs, ticks).Deciding?.DriverId is { } did ? names.GetValueOrDefault(did)
            : stop.DriverId is { } planned && names.TryGetValue(planned, out var name) ? $"({name})" : null;
    }

    /// <summary>From the tanks that received the lot, and on from those that its fish were moved to.</summary>
    private static async Task<IReadOnlyList<LotMove>> MovesAsync(HatcheryDb db, Guid programmeId, EggLot lot, CancellationToken cancel)
    {
        var lines = await db.Ledger.AsNoTracking()
            .Where(e => e.SeasonId == lot.SeasonId && e.TransferId != null && (e.Kind == LedgerKind.TransferredOut || e.Kind == LedgerKind.TransferredIn)).ToListAsync(cancel);
        var holding = (await db.Receipts.Where(r => r.SeasonId == lot.SeasonId && r.LotId == lot.Id).Select(r => r.TankId).Distinct().ToListAsync(cancel)).ToHashSet();
        var codes = await db.Tanks.Where(t => t.ProgrammeId == programmeId).ToDictionaryAsync(t => t.Id, t => t.Code, cancel);
        var people = lines.Select(e => e.EnteredBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var moves = new List<LotMove>();
        foreach (var act in lines.GroupBy(e => e.TransferId).OrderBy(g => g.Min(e => e.At)))
        {
            var (gone, came) = (act.Where(e => e.Kind == LedgerKind.TransferredOut).ToList(), act.Where(e => e.Kind == LedgerKind.TransferredIn).ToList());
            if (gone.Count == 0 || came.Count == 0 || gone.Sum(e => e.Count) is not (> 0 and var fish) || !holding.Contains(gone[0].TankId))
            {
                continue;
            }

            holding.Add(came[0].TankId);
            moves.Add(new LotMove(
                gone.Min(e => e.At), fish, gone.Exists(e => e.About), codes[gone[0].TankId], codes[came[0].TankId],
                gone[0].EnteredBy is { } by ? names.GetValueOrDefault(by) : null));
        }

        return moves;
    }
}
