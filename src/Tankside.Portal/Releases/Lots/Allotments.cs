using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Lots;

/// <summary>A tank with what it is promised and what it has room for.</summary>
public sealed record AllottableTank(TankPlace Place, Allotment? Promise, int Capacity, IReadOnlyList<Guid> LotsReceived)
{
    public string Code => Place.Tank.Code;

    /// <summary>What was shown of the promise, so that a change of somebody else is noticed.</summary>
    public string Seen => $"{Promise?.Eggs ?? 0}|{Promise?.LotId}|{Day}";

    public string Day => Promise?.DeliveryOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
}

/// <summary>One change of a promise, in words.</summary>
public sealed record ToldChange(DateTime At, string Tank, string Room, string? By, AllotmentChange Change, string? LotBefore, string? LotAfter);

/// <summary>All that promises are made from.</summary>
public sealed record AllotmentsAtHand(
    SeasonAtHand Season, IReadOnlyList<EggLot> Lots, IReadOnlyList<AllottableTank> Tanks, IReadOnlyList<ToldChange> Changes, IReadOnlyDictionary<string, double> Own)
{
    public double Reserve => Own.Of(EggSettings.Reserve);

    public int Pack => Math.Max(1, (int)Own.Of(EggSettings.Pack));

    public int Allotted(Guid lot) => Tanks.Where(t => t.Promise?.LotId == lot).Sum(t => t.Promise!.Eggs);

    public int OrderOf(Guid lot) => AllotmentRules.Order(Allotted(lot), Reserve, Pack);
}

/// <summary>One row of the form, as typed.</summary>
public sealed class AllotRow
{
    public string? Code { get; set; }

    public string? Eggs { get; set; }

    public string? Lot { get; set; }

    public string? Day { get; set; }

    public string? Seen { get; set; }
}

public sealed class AllotForm
{
    public List<AllotRow> Rows { get; set; } = [];

    public string? Why { get; set; }
}

/// <summary>What the tanks of a season are promised: shown, changed as typed, every change kept with its room.</summary>
public sealed class Allotments(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>The newest changes that are told.</summary>
    private const int ToldChanges = 30;

    public async Task<AllotmentsAtHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, user, cancel);
    }

    private async Task<AllotmentsAtHand> LoadAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var hand = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        if (hand.Season is not { } season)
        {
            return new AllotmentsAtHand(hand, [], [], [], own);
        }

        var lots = await db.EggLots.AsNoTracking().Where(l => l.SeasonId == season.Id).OrderBy(l => l.Code).ToListAsync(cancel);
        var open = await db.Tanks.Where(t => t.ProgrammeId == user.ProgrammeId && (t.ClosedAt == null || db.Allotments.Any(a => a.TankId == t.Id && a.SeasonId == season.Id)))
            .Select(t => t.Id).ToListAsync(cancel);
        var places = await Surroundings.LoadAsync(db, open, cancel, hand.Now);
        var promises = await db.Allotments.AsNoTracking().Where(a => a.SeasonId == season.Id).ToDictionaryAsync(a => a.TankId, cancel);
        var received = (await db.Receipts.AsNoTracking().Where(r => r.SeasonId == season.Id).Select(r => new { r.TankId, r.LotId }).Distinct().ToListAsync(cancel)).ToLookup(r => r.TankId, r => r.LotId);
        var perLitre = own.Of(EggSettings.PerLitre);
        return new AllotmentsAtHand(
            hand, lots,
            [.. places.All.OrderBy(p => p.Tank.Code, StringComparer.Ordinal).Select(p => new AllottableTank(
                p, promises.GetValueOrDefault(p.Tank.Id), AllotmentRules.Capacity(p.Tank.Litres, perLitre), [.. received[p.Tank.Id]]))],
            await ChangesAsync(db, season.Id, lots, places, cancel),
            own);
    }

    private static async Task<List<ToldChange>> ChangesAsync(HatcheryDb db, Guid seasonId, List<EggLot> lots, Surroundings places, CancellationToken cancel)
    {
        var rows = await (
            from change in db.AllotmentChanges.AsNoTracking()
            join tank in db.Tanks on change.TankId equals tank.Id
            from person in db.Users.Where(u => u.Id == change.By).DefaultIfEmpty()
            where change.SeasonId == seasonId
            orderby change.At descending, tank.Code
            select new { change, tank.Code, person!.Name }).Take(ToldChanges).ToListAsync(cancel);
        string? Lot(Guid? id) => lots.FirstOrDefault(l => l.Id == id)?.Code;
        return [.. rows.Select(r => new ToldChange(
            r.change.At, r.Code, places.Knows(r.change.TankId) ? $"{places.Of(r.change.TankId).School.Name}, {places.Of(r.change.TankId).Room.Name}" : "",
            r.Name, r.change, Lot(r.change.LotBefore), Lot(r.change.LotAfter)))];
    }

    /// <summary>Keeps all rows as typed, or none.</summary>
    public Task<Notice?> HandleAsync(CurrentUser user, AllotForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, AllotForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var hand = await LoadAsync(db, user, cancel);
        var typed = new TypedFields(refuse);
        var why = typed.Text(nameof(form.Why), form.Why);
        var changes = new List<(AllottableTank Tank, int Eggs, Guid? Lot, DateOnly? Day)>();
        for (var i = 0; i < form.Rows.Count; i++)
        {
            var row = form.Rows[i];
            if (hand.Tanks.SingleOrDefault(t => t.Code == row.Code) is { } tank && Read(i, row, tank, hand, typed) is { } change)
            {
                changes.Add((tank, change.Eggs, change.Lot, change.Day));
            }
        }

        if (!typed.AllGood)
        {
            return null;
        }

        if (changes.Count == 0)
        {
            return new Notice(true, "Nothing was changed: every row says what was kept already.");
        }

        foreach (var (tank, eggs, lot, day) in changes)
        {
            await ApplyAsync(db, hand.Season, tank, eggs, lot, day, why, user, cancel);
        }

        await db.SaveChangesAsync(cancel);
        var sum = changes.Sum(c => c.Eggs - (c.Tank.Promise?.Eggs ?? 0));
        return new Notice(true, $"Kept: {Figures.Of(changes.Count, "tank", "tanks")} changed, {(sum == 0 ? "the number of eggs as before" : $"{Figures.Of(Math.Abs(sum), "egg", "eggs")} {(sum > 0 ? "more" : "fewer")} promised")}.");
    }

    /// <summary>A row that says something else than is kept; null for one that says the same, or cannot be taken.</summary>
    private static (int Eggs, Guid? Lot, DateOnly? Day)? Read(int i, AllotRow row, AllottableTank tank, AllotmentsAtHand hand, TypedFields typed)
    {
        var field = $"Rows[{i}].Eggs";
        var eggs = typed.OptionalCount(field, row.Eggs) ?? 0;
        Guid? lot = Guid.TryParse(row.Lot, out var id) && hand.Lots.Any(l => l.Id == id) ? id : null;
        DateOnly? day = string.IsNullOrWhiteSpace(row.Day) ? null : typed.Day(field, row.Day);
        if (eggs == (tank.Promise?.Eggs ?? 0) && (lot == tank.Promise?.LotId || eggs == 0) && (day == tank.Promise?.DeliveryOn || eggs == 0))
        {
            return null;
        }

        if (row.Seen != tank.Seen)
        {
            typed.Refuse(field, $"Somebody else has changed {tank.Code} meanwhile: {Figures.Of(tank.Promise?.Eggs ?? 0, "egg", "eggs")} are promised now. Look at it again.");
            return null;
        }

        bool? open = day is { } on ? tank.Place.Calendar.IsSchoolDay(on) : null;
        foreach (var refusal in AllotmentRules.Check(eggs, lot, tank.LotsReceived, tank.Place.Tank.ClosedAt is not null, open))
        {
            typed.Refuse(field, $"{tank.Code}: {LotWords.Word(refusal)}");
        }

        return (eggs, lot, day);
    }

    private static async Task ApplyAsync(
        HatcheryDb db, SeasonAtHand hand, AllottableTank tank, int eggs, Guid? lot, DateOnly? day, string? why, CurrentUser user, CancellationToken cancel)
    {
        var promise = await db.Allotments.SingleOrDefaultAsync(a => a.SeasonId == hand.Season!.Id && a.TankId == tank.Place.Tank.Id, cancel);
        db.AllotmentChanges.Add(new AllotmentChange
        {
            Id = Guid.CreateVersion7(),
            SeasonId = hand.Season!.Id,
            TankId = tank.Place.Tank.Id,
            LotBefore = promise?.LotId,
            LotAfter = eggs == 0 ? null : lot,
            EggsBefore = promise?.Eggs ?? 0,
            EggsAfter = eggs,
            DayBefore = promise?.DeliveryOn,
            DayAfter = eggs == 0 ? null : day,
            At = hand.Now,
            By = user.PersonId,
            Why = why,
        });
        if (promise is not null)
        {
            db.Allotments.Remove(promise);
        }

        if (eggs > 0)
        {
            if (promise?.LotId == lot)
            {
                db.Entry(promise!).State = EntityState.Unchanged;
                (promise!.Eggs, promise.DeliveryOn) = (eggs, day);
            }
            else
            {
                db.Allotments.Add(new Allotment { Id = Guid.CreateVersion7(), SeasonId = hand.Season.Id, TankId = tank.Place.Tank.Id, LotId = lot!.Value, Eggs = eggs, DeliveryOn = day });
            }
        }
    }
}
