using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>The whole round of a programme at a moment.</summary>
/// <param name="Rows">What stands in the round, in its order.</param>
/// <param name="Resting">Rows of which every trouble waits for a promise or for a set time, the soonest first.</param>
/// <param name="Well">Tanks with fish and nothing flagged.</param>
/// <param name="Doubts">Readings that wait for a person to say what was meant.</param>
public sealed record RoundNow(
    DateTime At, IReadOnlyList<RoundRow> Rows, IReadOnlyList<RoundRow> Resting, int Tanks, int Well, int Silent, int Doubts, TemperatureUnit Unit,
    ProgrammeClock Clock)
{
    /// <summary>The tanks that stand in the round.</summary>
    public IReadOnlyList<RoundCall> Calls { get; } = [.. Rows.OfType<RoundCall>()];

    public RoundRow? Of(string? key) => Rows.FirstOrDefault(r => r.Key == key) ?? Resting.FirstOrDefault(r => r.Key == key);
}

/// <summary>Reads the open flags and puts them in order, as the numbers stand now.</summary>
public sealed class Round(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<RoundNow> LoadAsync(Guid programmeId, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var supplied = db.Tanks.Where(t => t.ProgrammeId == programmeId && t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id));
        var standing = await db.Programmes.AsNoTracking().Where(p => p.Id == programmeId).Select(p => new
        {
            Programme = p,
            Stamp = db.WaysStamps.Where(s => s.ProgrammeId == p.Id).Select(s => (long?)s.Stamp).FirstOrDefault(),
            WithFish = supplied.Count(),
            Well = supplied.Count(t => !db.Flags.Any(f => f.TankId == t.Id && f.State == FlagState.Open)), // A tank that waits for its eggs may be flagged too.
            Doubts = db.Readings.Count(
                r => r.State == ReadingState.Asked && r.CorrectedBy == null && db.Tanks.Any(t => t.Id == r.TankId && t.ProgrammeId == programmeId)),
        }).SingleAsync(cancel);
        var programme = standing.Programme;
        var flags = await db.Flags.AsNoTracking().Where(f => f.ProgrammeId == programmeId && f.State == FlagState.Open).ToListAsync(cancel);
        var tankIds = flags.Select(f => f.TankId).OfType<Guid>().Distinct().ToList();
        var ways = await ProgrammeWays.OfAsync(db, programmeId, standing.Stamp, cancel);
        var all = (await RoundReader.LoadAsync(db, programme, ways, flags, tankIds, now, cancel)).Rows();
        return new RoundNow(
            now, [.. all.Where(c => c.RestsUntil is null)], [.. all.Where(c => c.RestsUntil is not null).OrderBy(c => c.RestsUntil)],
            standing.WithFish, standing.Well, flags.Count(f => f.Kind == FlagKind.Silent), standing.Doubts, programme.ScreenUnit, ProgrammeClock.Of(programme.TimeZone));
    }
}
