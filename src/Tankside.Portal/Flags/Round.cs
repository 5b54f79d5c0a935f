using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>A tank in the round with everything its row says.</summary>
public sealed record RoundCall(Call<Flag> Call, TankPlace Place, IReadOnlyList<RoundTrouble> Troubles)
{
    public Urgency Urgency => Troubles.Max(t => t.Flag.Urgency);

    public RoundTrouble Leading => Troubles[0];
}

/// <summary>One flag of a call, worded.</summary>
public sealed record RoundTrouble(Flag Flag, int Rank, double ExpectedLoss, Science.Units.Band? HoursLeft, string Reason, string? TakenByName);

/// <summary>The whole round of a programme at a moment.</summary>
/// <param name="Well">Tanks with fish and nothing flagged.</param>
/// <param name="Doubts">Readings that wait for a person to say what was meant.</param>
public sealed record RoundNow(
    DateTime At, IReadOnlyList<RoundCall> Calls, int Tanks, int Well, int Silent, int Doubts, TemperatureUnit Unit);

/// <summary>Reads the open flags and puts them in order, as the numbers stand now.</summary>
public sealed class Round(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<RoundNow> LoadAsync(Guid programmeId, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var flags = await db.Flags.AsNoTracking().Where(f => f.ProgrammeId == programmeId && f.State == FlagState.Open).ToListAsync(cancel);
        var tankIds = flags.Select(f => f.TankId).Distinct().ToList();
        var calls = await CallsAsync(db, flags, tankIds, programme.ScreenUnit, now, cancel);

        var withFish = await db.Tanks.Where(t => t.ProgrammeId == programmeId && t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id)).CountAsync(cancel);
        var doubts = await db.Readings.CountAsync(
            r => r.State == ReadingState.Asked && r.CorrectedBy == null && db.Tanks.Any(t => t.Id == r.TankId && t.ProgrammeId == programmeId), cancel);
        return new RoundNow(
            now, calls, withFish, Math.Max(0, withFish - tankIds.Count), flags.Count(f => f.Kind == FlagKind.Silent), doubts, programme.ScreenUnit);
    }

    private static async Task<IReadOnlyList<RoundCall>> CallsAsync(
        HatcheryDb db, List<Flag> flags, List<Guid> tankIds, TemperatureUnit unit, DateTime now, CancellationToken cancel)
    {
        var places = await Surroundings.LoadAsync(db, tankIds, cancel);
        var fish = await FishInTanks.LoadAsync(db, tankIds, cancel);
        var takers = flags.Select(f => f.TakenBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => takers.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var troubled = flags.GroupBy(f => f.TankId).Where(g => places.Knows(g.Key)).Select(g => new TroubledTank<Flag>(
            places.Of(g.Key).Profile(), fish.Of(g.Key), places.Of(g.Key).Calendar, [.. g.Select(f => (f, f.AsFinding()))]));
        return [.. MorningRound.Order(troubled, now).Select(call =>
        {
            var words = new ReasonWords(places.Of(call.Tank.Id).Calendar, call.Fish, now, unit);
            return new RoundCall(call, places.Of(call.Tank.Id), [.. call.Troubles.Select(t => new RoundTrouble(
                t.Key, t.Rank, t.ExpectedLoss, t.HoursLeft, words.Of(t.Finding),
                t.Key.TakenBy is { } by ? names.GetValueOrDefault(by) : null))]);
        })];
    }
}
