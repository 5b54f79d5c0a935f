using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Flags.InTheTank;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Everything that the page of one tank shows, at one moment.</summary>
/// <param name="Record">What the rules judge the tank by.</param>
/// <param name="Development">Null before any eggs came; <paramref name="Balance"/> is then empty.</param>
/// <param name="Promised">Eggs allotted to a tank that has not received any; null once it has.</param>
/// <param name="Flags">Open ones in the order they would be called about.</param>
/// <param name="Water">Temperatures of the last thirty days, programme-local time.</param>
/// <param name="Readings">The last ones as they came, the newest first.</param>
/// <param name="Doubts">Readings that wait for somebody to say what was meant.</param>
/// <param name="Left">How it would come through the closed days; null without fish.</param>
/// <param name="NotKnown">How long nobody knew; null before any eggs came.</param>
/// <param name="RoomCode">The code on the label; null where it is none of the asker's business or none is valid.</param>
public sealed record OurTankNow(
    DateTime At, TankPlace Place, TankRecord Record, DevelopmentNow? Development, TankBalance Balance, Promise? Promised,
    IReadOnlyList<OurFlag> Flags, IReadOnlyList<TemperaturePoint> Water, IReadOnlyList<Reading> Readings, int Doubts,
    LeftTank? Left, NotKnown? NotKnown, string? RoomCode)
{
    /// <summary>The set-point plan that is kept; null where none is.</summary>
    public SetPointPlan? Plan { get; init; }

    public TimeWords Time { get; private init; } = new(Place.Calendar.Clock, At);

    public ScaleWords Scale { get; private init; } = new(Place.Programme.ScreenUnit);

    /// <summary>The same, said to a reader.</summary>
    public OurTankNow To(Say reader) => this with { Time = Time.To(reader), Scale = Scale.To(reader) };
}

/// <summary>Eggs of a lot promised to a tank.</summary>
public sealed record Promise(string Lot, int Eggs);

/// <summary>An open flag with its reason, what to do first, and who has taken it.</summary>
public sealed record OurFlag(Flag Flag, string Reason, FirstAidCard FirstAid, string? TakenByName);

/// <summary>Loads one tank for whoever may see it.</summary>
public sealed class OurTank(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    private const int LastReadings = 14;

    /// <summary>Null when there is no such tank for this person.</summary>
    public async Task<OurTankNow?> LoadAsync(string code, CurrentUser user, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var asked = await db.TanksOf(user).AsNoTracking().Where(t => t.Code == code).Select(t => new
        {
            t.Id,
            Doubts = db.Readings.Count(r => r.TankId == t.Id && r.State == ReadingState.Asked && r.CorrectedBy == null),
            RoomCode = db.RoomCodes.Where(c => c.TankId == t.Id && c.RevokedAt == null).OrderByDescending(c => c.IssuedAt).Select(c => c.Code).FirstOrDefault(),
            Flags = db.Flags.Where(f => f.TankId == t.Id && f.State == FlagState.Open)
                .Select(f => new TakenFlag(f, db.Users.Where(p => p.Id == f.TakenBy).Select(p => p.Name).FirstOrDefault())).ToList(),
        }).SingleOrDefaultAsync(cancel);
        if (asked is null)
        {
            return null;
        }

        Guid[] ids = [asked.Id];
        var places = await Surroundings.LoadAsync(db, ids, cancel, now);
        var place = places.Of(asked.Id);
        var loaded = (await TankRecords.LoadedAsync(db, ids, places, withSiblings: true, folded: false, now, cancel)).Single();
        var record = loaded.Record;
        var development = record.Lot is null ? null : record.DevelopmentOn(place.Calendar.Clock.Day(now));
        var notKnown = NotKnownHours.Of(loaded, now);
        return new OurTankNow(
            now, place, record, development,
            record.Ledger?.Balance ?? TankBalance.Of([], place.Tank.ClosedAt is not null),
            record.Lot is null ? await PromiseAsync(db, place.Tank, cancel) : null,
            Told(asked.Flags, place, record, now),
            await WaterHistory.LoadAsync(db, place, now, cancel),
            await db.Readings.AsNoTracking().Where(r => r.TankId == asked.Id)
                .OrderByDescending(r => r.At).ThenByDescending(r => r.Id).Take(LastReadings).ToListAsync(cancel),
            asked.Doubts,
            Weekend.Of(place, record, notKnown, now), notKnown,
            user.Is(Role.KitHand) ? null : asked.RoomCode)
        {
            Plan = loaded.Kept,
        };
    }

    private static Task<Promise?> PromiseAsync(HatcheryDb db, Tank tank, CancellationToken cancel) => (
        from allotment in db.Allotments
        join lot in db.EggLots on allotment.LotId equals lot.Id
        join season in db.Seasons on allotment.SeasonId equals season.Id
        where allotment.TankId == tank.Id
        orderby season.StartsOn descending
        select new Promise(lot.Code, allotment.Eggs)).FirstOrDefaultAsync(cancel);

    private sealed record TakenFlag(Flag Flag, string? Taker);

    private IReadOnlyList<OurFlag> Told(List<TakenFlag> flags, TankPlace place, TankRecord record, DateTime now)
    {
        var names = flags.ToDictionary(f => f.Flag, f => f.Taker);
        TroubledTank<Flag> troubled = new(record.Tank, record.Fish, place.Calendar, [.. flags.Select(f => (f.Flag, f.Flag.AsFinding()))]);
        return [.. MorningRound.Order([troubled], now).SelectMany(call => call.Troubles).Select(t => new OurFlag(
            t.Key, Reasons.Of(t.Finding, place.Calendar, place.Programme.ScreenUnit, record.Fish, now, say.Language, record.Texts), FirstAid.For(t.Finding, AidTank.Of(place), say.Language), names[t.Key]))];
    }
}
