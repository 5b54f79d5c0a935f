using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>A line with what a reader wants to know beside it.</summary>
/// <param name="By">Who entered it, such as " by Ines"; empty when nobody in person did.</param>
/// <param name="Corrects">The line that it takes back.</param>
/// <param name="OtherTank">Code of the tank at the other end of a move.</param>
/// <param name="Refusal">Why it cannot be taken back here; null when it can.</param>
public sealed record LedgerLine(LedgerEntry Entry, string By, LedgerEntry? Corrects, bool IsCorrected, string? OtherTank, CorrectionRefusal? Refusal);

/// <summary>One tank's account for the season at hand, with every line of it, newest first.</summary>
public sealed record TankAccount(
    SeasonAtHand Season, Tank Tank, string School, string Room, TankBalance Balance, IReadOnlyList<LedgerLine> Lines, EggLot? Lot, int Allotted);

/// <summary>Loads the account of a tank that the person may see.</summary>
public sealed class TankLedger(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    /// <summary>Null when there is no such tank for this person, or no season yet.</summary>
    public async Task<TankAccount?> LoadAsync(CurrentUser user, string code, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var place = await (
            from tank in TanksInReach.Of(db, user).AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.Code == code
            select new { tank, Room = room.Name, School = school.Name }).SingleOrDefaultAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        if (place is null || season.Season is not { } current)
        {
            return null;
        }

        var entries = await EntriesAsync(db, place.tank.Id, current.Id, cancel);
        var lots = await LotsInTanks.LoadAsync(db, current.Id, cancel);
        var allotted = await db.Allotments.Where(a => a.TankId == place.tank.Id && a.SeasonId == current.Id).SumAsync(a => a.Eggs, cancel);
        return new TankAccount(
            season, place.tank, place.School, place.Room, TankBalance.Of(entries, place.tank.ClosedAt is not null),
            await LinesAsync(db, entries, cancel), lots.Of(place.tank.Id), allotted);
    }

    public static Task<List<LedgerEntry>> EntriesAsync(HatcheryDb db, Guid tankId, Guid seasonId, CancellationToken cancel) =>
        db.Ledger.AsNoTracking().Where(e => e.TankId == tankId && e.SeasonId == seasonId).ToListAsync(cancel);

    private async Task<IReadOnlyList<LedgerLine>> LinesAsync(HatcheryDb db, List<LedgerEntry> entries, CancellationToken cancel)
    {
        var people = entries.Select(e => e.EnteredBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var moves = entries.Select(e => e.TransferId).OfType<Guid>().Distinct().ToList();
        var ends = (await (
            from half in db.Ledger
            join tank in db.Tanks on half.TankId equals tank.Id
            where half.TransferId != null && moves.Contains(half.TransferId.Value)
            select new { Move = half.TransferId!.Value, half.TankId, tank.Code }).ToListAsync(cancel)).ToLookup(h => h.Move);
        var byId = entries.ToDictionary(e => e.Id);
        var corrected = entries.Select(e => e.CorrectsId).OfType<long>().ToHashSet();
        return
        [
            .. entries.OrderByDescending(e => e.At).ThenByDescending(e => e.Id).Select(e => new LedgerLine(
                e, By(e, names),
                e.CorrectsId is { } id ? byId.GetValueOrDefault(id) : null,
                corrected.Contains(e.Id),
                e.TransferId is { } move ? ends[move].FirstOrDefault(h => h.TankId != e.TankId)?.Code : null,
                LedgerRules.CheckCorrection(e, corrected.Contains(e.Id)))),
        ];
    }

    private string By(LedgerEntry entry, Dictionary<Guid, string> names) =>
        entry.EnteredBy is { } id && names.TryGetValue(id, out var name) ? " " + say.Of("by {0}|person", name)
        : entry.Reading is not null ? " " + say["with the class’s reading"]
        : "";
}
