using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>
/// Folds a season's ledger into its account: one line for each tank that was allotted or received eggs. The ledger is read tank by tank, so
/// that a large programme's lines are never all in memory.
/// </summary>
public static class SeasonFold
{
    public static async Task<SeasonTotals> LoadAsync(HatcheryDb db, Programme programme, Season season, Guid? school, CancellationToken cancel)
    {
        var clock = ProgrammeClock.Of(programme.TimeZone);
        var rows = await RowsAsync(db, season, school, cancel);
        var ledger = await LedgerAsync(db, season.Id, rows.Where(r => r.ClosedAt is not null).Select(r => r.Id).ToHashSet(), cancel);
        var lots = await LotsInTanks.LoadAsync(db, season.Id, cancel);
        var hatched = await HatchDatesAsync(db, [.. rows.Select(r => r.Id)], season, cancel);
        var released = await SeasonFoldReleases.LoadAsync(db, programme.Id, season.Id, clock, cancel);
        var own = released.ToLookup(r => r.Tank);
        var codes = rows.Select(r => r.Code).ToHashSet();
        return new SeasonTotals(programme.Name, season.Name, [.. rows.Select(row =>
        {
            var lot = lots.Of(row.Id);
            return new TankTotals(
                row.School, row.Room, row.Code, lot?.Code ?? "", lot is null ? "" : SpeciesCodes.CodeOf(lot.Species),
                ledger.Balances.GetValueOrDefault(row.Id) ?? TankBalance.Of([], row.ClosedAt is not null),
                hatched.TryGetValue(row.Id, out var day) ? day : null,
                own[row.Code].Any() ? own[row.Code].Min(r => r.Day) : null,
                Joined(own[row.Code].Select(r => r.Site)), Joined(own[row.Code].Select(r => r.Permit)));
        })])
        {
            StartsOn = season.StartsOn,
            EndsOn = season.EndsOn,
            EnteredUntil = ledger.Newest,
            Releases = [.. released.Where(r => codes.Contains(r.Tank))],
            Permits = await SeasonFoldReleases.PermitsAsync(db, programme.Id, season, cancel),
            Moves = await MovesAsync(db, season.Id, cancel),
        };
    }

    private sealed record Row(Guid Id, string Code, DateTime? ClosedAt, string Room, string School);

    private static Task<List<Row>> RowsAsync(HatcheryDb db, Season season, Guid? onlySchool, CancellationToken cancel) => (
        from tank in db.Tanks.AsNoTracking()
        join room in db.Classrooms on tank.ClassroomId equals room.Id
        join school in db.Schools on room.SchoolId equals school.Id
        where (onlySchool == null || school.Id == onlySchool)
            && (db.Receipts.Any(r => r.TankId == tank.Id && r.SeasonId == season.Id)
                || db.Allotments.Any(a => a.TankId == tank.Id && a.SeasonId == season.Id)
                || db.Ledger.Any(e => e.TankId == tank.Id && e.SeasonId == season.Id))
        orderby tank.Code
        select new Row(tank.Id, tank.Code, tank.ClosedAt, room.Name, school.Name)).ToListAsync(cancel);

    private static async Task<(Dictionary<Guid, TankBalance> Balances, DateTime? Newest)> LedgerAsync(
        HatcheryDb db, Guid seasonId, HashSet<Guid> closed, CancellationToken cancel)
    {
        var balances = new Dictionary<Guid, TankBalance>();
        var lines = new List<LedgerEntry>();
        DateTime? newest = null;
        // Only what a balance looks at: who entered a line and why is most of it.
        var all = db.Ledger.AsNoTracking().Where(e => e.SeasonId == seasonId).OrderBy(e => e.TankId).Select(e => new LedgerEntry
        {
            Id = e.Id,
            TankId = e.TankId,
            SeasonId = e.SeasonId,
            Kind = e.Kind,
            Count = e.Count,
            At = e.At,
            EnteredAt = e.EnteredAt,
            CorrectsId = e.CorrectsId,
        });
        await foreach (var entry in all.AsAsyncEnumerable().WithCancellation(cancel))
        {
            Fold(unless: entry.TankId);
            lines.Add(entry);
            newest = newest > entry.EnteredAt ? newest : entry.EnteredAt;
        }

        Fold(unless: null);
        return (balances, newest);

        void Fold(Guid? unless)
        {
            if (lines.Count > 0 && lines[0].TankId is var tank && tank != unless)
            {
                balances[tank] = TankBalance.Of(lines, closed.Contains(tank));
                lines.Clear();
            }
        }
    }

    private static string? Joined(IEnumerable<string> names) =>
        names.Distinct().Order(StringComparer.Ordinal).ToList() is { Count: > 0 } several ? string.Join("; ", several) : null;

    /// <summary>The first day on which half or more were reported hatched.</summary>
    private static async Task<Dictionary<Guid, DateOnly>> HatchDatesAsync(HatcheryDb db, List<Guid> tankIds, Season season, CancellationToken cancel)
    {
        Share[] halfOrMore = [Share.Half, Share.Most, Share.All];
        return await db.TankDays.AsNoTracking()
            .Where(d => tankIds.Contains(d.TankId) && d.Day >= season.StartsOn && d.Day <= season.EndsOn && d.Hatched != null && halfOrMore.Contains(d.Hatched.Value))
            .GroupBy(d => d.TankId)
            .Select(g => new { g.Key, Day = g.Min(d => d.Day) })
            .ToDictionaryAsync(x => x.Key, x => x.Day, cancel);
    }

    /// <summary>Moves with what was taken back of them taken off.</summary>
    private static async Task<IReadOnlyList<FishMove>> MovesAsync(HatcheryDb db, Guid seasonId, CancellationToken cancel)
    {
        var halves = await (
            from entry in db.Ledger.AsNoTracking()
            join tank in db.Tanks on entry.TankId equals tank.Id
            where entry.SeasonId == seasonId && entry.TransferId != null
            select new { Move = entry.TransferId!.Value, entry.Kind, entry.Count, tank.Code }).ToListAsync(cancel);
        return [.. halves.GroupBy(h => h.Move)
            .Select(g => new FishMove(
                g.FirstOrDefault(h => h.Kind == LedgerKind.TransferredOut)?.Code ?? "",
                g.FirstOrDefault(h => h.Kind == LedgerKind.TransferredIn)?.Code ?? "",
                g.Where(h => h.Kind == LedgerKind.TransferredOut).Sum(h => h.Count)))
            .Where(m => m.Count > 0)
            .OrderBy(m => m.From, StringComparer.Ordinal).ThenBy(m => m.To, StringComparer.Ordinal).ThenBy(m => m.Count)];
    }
}
