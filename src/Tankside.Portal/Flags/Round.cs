using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.Spares;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>A tank in the round with everything its row says.</summary>
/// <param name="Spares">What could be lent against its troubles, the nearest of the best kind first.</param>
public sealed record RoundCall(Call<Flag> Call, TankPlace Place, IReadOnlyList<RoundTrouble> Troubles, IReadOnlyList<SpareShown> Spares)
{
    public Urgency Urgency => Troubles.Max(t => t.Flag.Urgency);

    public RoundTrouble Leading => Troubles[0];

    /// <summary>When it comes back into the round; null while it stands in it.</summary>
    public DateTime? RestsUntil => Troubles.All(t => t.RestsUntil is not null) ? Troubles.Min(t => t.RestsUntil) : null;
}

/// <summary>One flag of a call, worded.</summary>
/// <param name="RestsUntil">Until when a person lets it rest; null when it stands in the round.</param>
public sealed record RoundTrouble(
    Flag Flag, int Rank, double ExpectedLoss, Science.Units.Band? HoursLeft, string Reason, string? TakenByName, DateTime? RestsUntil);

/// <summary>The whole round of a programme at a moment.</summary>
/// <param name="Resting">Calls of which every trouble waits for a promise or for a set time, the soonest first.</param>
/// <param name="Well">Tanks with fish and nothing flagged.</param>
/// <param name="Doubts">Readings that wait for a person to say what was meant.</param>
public sealed record RoundNow(
    DateTime At, IReadOnlyList<RoundCall> Calls, IReadOnlyList<RoundCall> Resting, int Tanks, int Well, int Silent, int Doubts, TemperatureUnit Unit)
{
    public RoundCall? Of(Guid? tankId) =>
        Calls.FirstOrDefault(c => c.Place.Tank.Id == tankId) ?? Resting.FirstOrDefault(c => c.Place.Tank.Id == tankId);
}

/// <summary>Reads the open flags and puts them in order, as the numbers stand now.</summary>
public sealed class Round(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<RoundNow> LoadAsync(Guid programmeId, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var flags = await db.Flags.AsNoTracking()
            .Where(f => f.ProgrammeId == programmeId && f.State == FlagState.Open && f.TankId != null).ToListAsync(cancel);
        var tankIds = flags.Select(f => f.TankId!.Value).Distinct().ToList();
        var all = await CallsAsync(db, programmeId, flags, tankIds, programme.ScreenUnit, now, cancel);

        var withFish = await db.Tanks.Where(t => t.ProgrammeId == programmeId && t.ClosedAt == null && db.Receipts.Any(r => r.TankId == t.Id)).CountAsync(cancel);
        var doubts = await db.Readings.CountAsync(
            r => r.State == ReadingState.Asked && r.CorrectedBy == null && db.Tanks.Any(t => t.Id == r.TankId && t.ProgrammeId == programmeId), cancel);
        return new RoundNow(
            now, [.. all.Where(c => c.RestsUntil is null)], [.. all.Where(c => c.RestsUntil is not null).OrderBy(c => c.RestsUntil)],
            withFish, Math.Max(0, withFish - tankIds.Count), flags.Count(f => f.Kind == FlagKind.Silent), doubts, programme.ScreenUnit);
    }

    private static async Task<List<RoundCall>> CallsAsync(
        HatcheryDb db, Guid programmeId, List<Flag> flags, List<Guid> tankIds, TemperatureUnit unit, DateTime now, CancellationToken cancel)
    {
        var places = await Surroundings.LoadAsync(db, tankIds, cancel, now);
        var fish = await FishInTanks.LoadAsync(db, tankIds, cancel);
        var spares = await SpareFinder.LoadAsync(db, programmeId, cancel);
        var takers = flags.Select(f => f.TakenBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => takers.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var byTank = flags.GroupBy(f => f.TankId!.Value).Where(g => places.Knows(g.Key)).ToDictionary(g => g.Key, g => g.ToList());

        // What rests is not weighed: its place is taken by the promise. A tank of which all rests keeps its troubles, for its own list.
        var troubled = byTank.Select(t => new TroubledTank<Flag>(
            places.Of(t.Key).Profile(), fish.Of(t.Key), places.Of(t.Key).Calendar, [.. Weighed(t.Value, now).Select(f => (f, f.AsFinding()))]));
        return [.. MorningRound.Order(troubled, now).Select(call =>
        {
            var place = places.Of(call.Tank.Id);
            var words = new ReasonWords(place.Calendar, call.Fish, now, unit);
            var near = spares.For(place, call.Troubles.Select(t => t.Finding.Kind));
            var weighed = call.Troubles.Select(t => Worded(t, words, near, names, now));
            var beside = byTank[call.Tank.Id].Where(f => call.Troubles.All(t => t.Key != f))
                .Select(f => new RoundTrouble(f, 0, 0, null, words.Of(f.AsFinding()), TakerOf(f, names), f.RestsUntil));
            return new RoundCall(call, place, [.. weighed, .. beside], near);
        })];
    }

    private static IEnumerable<Flag> Weighed(List<Flag> flags, DateTime now) =>
        flags.TrueForAll(f => f.RestsAt(now)) ? flags : flags.Where(f => !f.RestsAt(now));

    private static RoundTrouble Worded(
        RankedTrouble<Flag> trouble, ReasonWords words, IReadOnlyList<SpareShown> near, Dictionary<Guid, string> names, DateTime now)
    {
        var reason = words.Of(trouble.Finding);
        if (near.Count > 0 && SpareKinds.For(trouble.Finding.Kind).Contains(near[0].Offer.Item.Kind))
        {
            reason = $"{reason.TrimEnd('.')}; {SpareWords.Nearest(near[0])}.";
        }

        if (trouble.Key.PromiseFellDue)
        {
            reason = $"What was promised was due and is not done. {reason}";
        }

        return new RoundTrouble(
            trouble.Key, trouble.Rank, trouble.ExpectedLoss, trouble.HoursLeft, reason, TakerOf(trouble.Key, names),
            trouble.Key.RestsAt(now) ? trouble.Key.RestsUntil : null);
    }

    private static string? TakerOf(Flag flag, Dictionary<Guid, string> names) => flag.TakenBy is { } by ? names.GetValueOrDefault(by) : null;
}
