using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Places;
using Tankside.Portal.Releases;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Readiness;

/// <summary>A tank at the gate: what eggs are promised to it and whether they may come.</summary>
/// <param name="CheckedBy">Who looked last; null where nobody did, or the person has left.</param>
public sealed record TankAtTheGate(TankPlace Place, TankRecord Record, ReadyVerdict Verdict, string? CheckedBy, DateTime At)
{
    public string Code => Place.Tank.Code;

    public TimeWords Time { get; private init; } = new(Place.Calendar.Clock, At);

    public ScaleWords Scale { get; private init; } = new(Place.Programme.ScreenUnit);

    /// <summary>The language it is said in.</summary>
    public Say Say => Time.Say;

    /// <summary>The same tank, said to another reader.</summary>
    public TankAtTheGate To(Say reader) => this with { Time = Time.To(reader), Scale = Scale.To(reader) };
}

/// <summary>What an adult ticks at the tank.</summary>
public sealed class ReadyForm
{
    public Guid Id { get; set; }

    public bool CoilDown { get; set; }

    public bool ProbeInWater { get; set; }

    public bool TubesFree { get; set; }

    public bool FilterCovered { get; set; }

    public bool GravelClean { get; set; }

    public bool WaterSafe { get; set; }

    public string? Note { get; set; }

    /// <summary>Of a signature: the name and why eggs may come all the same.</summary>
    public string? SignedAs { get; set; }

    public string? Reason { get; set; }
}

/// <summary>The gate before the eggs: looked at, ticked, signed over.</summary>
public sealed class ReadyTanks(IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IEggGate
{
    public async Task<IReadOnlyDictionary<Guid, string>> NoGoAsync(CurrentUser user, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return (await LoadAsync(db, user, tankIds, cancel)).Where(t => !t.Verdict.Go)
            .ToDictionary(t => t.Place.Tank.Id, t => string.Join("; ", t.Verdict.Missing.Select(m => ReadyWords.Word(m, t))));
    }

    /// <summary>Null when there is no such tank for this person.</summary>
    public async Task<TankAtTheGate?> FindAsync(string code, CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var id = await db.TanksOf(user).Where(t => t.Code == code).Select(t => t.Id).SingleOrDefaultAsync(cancel);
        return id == Guid.Empty ? null : (await LoadAsync(db, user, [id], cancel)).Single();
    }

    /// <summary>Every open tank that eggs are promised to and have not come to.</summary>
    public async Task<IReadOnlyList<TankAtTheGate>> WaitingAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = (await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel)).Season?.Id;
        var waiting = await db.TanksOf(user)
            .Where(t => t.ClosedAt == null && db.Allotments.Any(a => a.SeasonId == season && a.TankId == t.Id && a.Eggs > 0 && !db.Receipts.Any(r => r.SeasonId == a.SeasonId && r.TankId == a.TankId && r.LotId == a.LotId)))
            .Select(t => t.Id).ToListAsync(cancel);
        return [.. (await LoadAsync(db, user, waiting, cancel)).OrderBy(t => t.Verdict.Go).ThenBy(t => t.Record.Expected?.On ?? DateOnly.MaxValue).ThenBy(t => t.Code, StringComparer.Ordinal)];
    }

    private async Task<IReadOnlyList<TankAtTheGate>> LoadAsync(HatcheryDb db, CurrentUser user, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        var season = (await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel)).Season?.Id;
        var places = await Surroundings.LoadAsync(db, tankIds, cancel, now);
        var records = await TankRecords.LoadAsync(db, tankIds, places, withSiblings: false, now, cancel);
        var checks = (await db.ReadyChecks.AsNoTracking().Where(c => c.SeasonId == season && tankIds.Contains(c.TankId)).ToListAsync(cancel)).ToLookup(c => c.TankId);
        var signed = await db.ReadyOverrides.AsNoTracking().Where(o => o.SeasonId == season && tankIds.Contains(o.TankId) && o.WithdrawnAt == null).ToDictionaryAsync(o => o.TankId, cancel);
        var by = checks.SelectMany(c => c).Select(c => c.By).Distinct().ToList();
        var names = await db.Users.Where(p => by.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return [.. records.Select(record =>
        {
            var newest = checks[record.Tank.Id].OrderBy(c => c.At).ThenBy(c => c.Id).LastOrDefault();
            return new TankAtTheGate(
                places.Of(record.Tank.Id), record, ReadyGate.Judge(record, newest, signed.GetValueOrDefault(record.Tank.Id), now),
                newest is null ? null : names.GetValueOrDefault(newest.By), now);
        })];
    }

    public async Task<Notice?> TickAsync(TankAtTheGate tank, CurrentUser user, ReadyForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var typed = new TypedFields(refuse, tank.Say);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (await SeasonAsync(db, user, typed, cancel) is not { } season || !typed.AllGood)
        {
            return null;
        }

        if (await db.ReadyChecks.AnyAsync(c => c.Id == form.Id, cancel))
        {
            return new Notice(true, "This look was kept already.");
        }

        db.ReadyChecks.Add(new ReadyCheck
        {
            Id = form.Id,
            SeasonId = season,
            TankId = tank.Place.Tank.Id,
            At = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            By = user.PersonId,
            CoilDown = form.CoilDown,
            ProbeInWater = form.ProbeInWater,
            TubesFree = form.TubesFree,
            FilterCovered = form.FilterCovered,
            GravelClean = form.GravelClean,
            WaterSafe = form.WaterSafe,
            Note = note,
        });
        return await SavedAsync(db, "The list is kept.", "This look was kept already.", cancel);
    }

    /// <summary>Signs that eggs may come although something is missing; the reason stays with the tank.</summary>
    public async Task<Notice?> SignAsync(TankAtTheGate tank, CurrentUser user, ReadyForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var typed = new TypedFields(refuse, tank.Say);
        var (name, reason) = (typed.Name(nameof(form.SignedAs), form.SignedAs, "Sign with your name."), typed.Text(nameof(form.Reason), form.Reason));
        if (reason is null)
        {
            typed.Refuse(nameof(form.Reason), "Say why eggs may come all the same: who looks after them until it is right.");
        }

        if (await SeasonAsync(db, user, typed, cancel) is not { } season || !typed.AllGood)
        {
            return null;
        }

        db.ReadyOverrides.Add(new ReadyOverride
        {
            Id = Guid.CreateVersion7(),
            SeasonId = season,
            TankId = tank.Place.Tank.Id,
            At = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            By = user.PersonId,
            SignedAs = name,
            Reason = reason!,
        });
        return await SavedAsync(db, tank.Say.Of("Signed: eggs may come to {0}.", tank.Code), "Somebody else has signed for this tank already. Nothing was changed.", cancel);
    }

    public async Task<Notice> WithdrawAsync(TankAtTheGate tank, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        return tank.Verdict.Signature is { } signed && await db.ReadyOverrides.Where(o => o.Id == signed.Id && o.WithdrawnAt == null)
            .ExecuteUpdateAsync(o => o.SetProperty(x => x.WithdrawnAt, now).SetProperty(x => x.Version, x => x.Version + 1), cancel) > 0
            ? new Notice(true, "The signature is taken back.")
            : new Notice(false, "There was no signature any more. Nothing was changed.");
    }

    private async Task<Guid?> SeasonAsync(HatcheryDb db, CurrentUser user, TypedFields typed, CancellationToken cancel)
    {
        var season = (await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel)).Season;
        if (season is null)
        {
            typed.Refuse("", "There is no season yet. Nothing was kept.");
        }

        return season?.Id;
    }

    private static async Task<Notice> SavedAsync(HatcheryDb db, string done, string already, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            return new Notice(true, done);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            return new Notice(false, already);
        }
    }
}
