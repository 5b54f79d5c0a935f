using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>What a class page shows of its tank. No person's name, no other tank, no address.</summary>
public sealed record TankView(TankPlace Place, TankRecord Record, DevelopmentNow? Development, DateTime Now, TemperatureUnit? LastUnit)
{
    /// <summary>Where a grown-up sets the dial today by the plan that is kept, °C; null without a plan.</summary>
    public double? DialC { get; init; }

    public string Code => Place.Tank.Code;

    /// <summary>The scale that somebody at this tank typed last; the tank's own while nobody has.</summary>
    public TemperatureUnit UsualUnit => LastUnit ?? Place.Tank.UsualUnit;

    /// <summary>The field of the form in which the dead are counted at this stage.</summary>
    public string DeadField => DeadFieldOf(Development?.Stage);

    public static string DeadFieldOf(Hatchery.Eggs.LifeStage? stage) => stage switch
    {
        Hatchery.Eggs.LifeStage.Alevin => "deadAlevins",
        Hatchery.Eggs.LifeStage.Fry => "deadFry",
        _ => "deadEggs",
    };
}

/// <summary>Finds the tank that a room code opens. Guessing is limited by address.</summary>
public sealed class TankByCode(IDbContextFactory<HatcheryDb> databases, TimeProvider time, WrongCodes wrongCodes)
{
    private static readonly Compiled<string, Guid> Labelled = new((db, code) => db.RoomCodes.Where(c => c.Code == code && c.RevokedAt == null).Select(c => c.TankId));

    private static readonly Compiled<Guid, TemperatureUnit?> Units = new((db, tankId) => db.Readings
        .Where(r => r.TankId == tankId && r.State == ReadingState.Accepted && r.TypedUnit != null
            && (r.Source == ReadingSource.Class || r.Source == ReadingSource.Person))
        .OrderByDescending(r => r.At).Select(r => r.TypedUnit).Take(1));

    /// <summary>Null for a code that is not, or is no longer, a label's.</summary>
    /// <param name="withSiblings">Whether anybody asks what the lot's other tanks lose.</param>
    public async Task<TankView?> FindAsync(string code, string address, bool withSiblings, CancellationToken cancel)
    {
        var normal = RoomCodes.Normalise(code);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var tankId = normal.Length != RoomCodes.Length ? Guid.Empty
            : (await Labelled.ToListAsync(db, normal, cancel)).SingleOrDefault();
        if (tankId == Guid.Empty)
        {
            wrongCodes.Count(address);
            return null;
        }

        return await ViewAsync(db, tankId, withSiblings, time.GetUtcNow().UtcDateTime, cancel);
    }

    /// <summary>The tank with this code among those the person may see; another's tank is not found.</summary>
    public async Task<TankView?> FindAsync(string tankCode, CurrentUser user, bool withSiblings, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var id = await db.TanksOf(user).Where(t => t.Code == tankCode).Select(t => t.Id).SingleOrDefaultAsync(cancel);
        return id == Guid.Empty ? null : await ViewAsync(db, id, withSiblings, time.GetUtcNow().UtcDateTime, cancel);
    }

    private static async Task<TankView> ViewAsync(HatcheryDb db, Guid tankId, bool withSiblings, DateTime now, CancellationToken cancel)
    {
        var surroundings = await Surroundings.LoadAsync(db, [tankId], cancel, now);
        var record = (await TankRecords.LoadAsync(db, [tankId], surroundings, withSiblings, now, cancel))[0];
        var development = record.Lot is null ? null : record.DevelopmentOn(record.Calendar.Clock.Day(now));
        return new TankView(surroundings.Of(tankId), record, development, now, await LastUnitAsync(db, tankId, cancel))
        {
            DialC = record.Plan is not { } plan || record.Fish == 0 ? null : SetPointCourse.On(plan, record.Calendar.Clock.Day(now)),
        };
    }

    /// <summary>Of what people typed; a logger has no thermometer that anybody reads.</summary>
    private static async Task<TemperatureUnit?> LastUnitAsync(HatcheryDb db, Guid tankId, CancellationToken cancel) => (await Units.ToListAsync(db, tankId, cancel)).FirstOrDefault();
}

/// <summary>Counts wrong room codes by address. A code has over 57 bits; this keeps anybody from even trying.</summary>
public sealed class WrongCodes(TimeProvider time)
{
    private const int Allowed = 60;

    private static readonly TimeSpan Window = TimeSpan.FromMinutes(10);

    private readonly ConcurrentDictionary<string, (DateTimeOffset Since, int Count)> tries = new();

    public void Count(string address)
    {
        var now = time.GetUtcNow();
        tries.AddOrUpdate(address, _ => (now, 1), (_, t) => now - t.Since > Window ? (now, 1) : (t.Since, t.Count + 1));
        if (tries.Count > 10_000)
        {
            foreach (var old in tries.Where(t => now - t.Value.Since > Window))
            {
                tries.TryRemove(old);
            }
        }
    }

    public bool IsShutOut(string address) =>
        tries.TryGetValue(address, out var t) && t.Count > Allowed && time.GetUtcNow() - t.Since <= Window;
}
