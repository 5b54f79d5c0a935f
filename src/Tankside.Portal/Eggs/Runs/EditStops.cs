using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

public sealed class StopForm
{
    public string? Eggs { get; set; }

    public string? Visit { get; set; }

    public string? NotBefore { get; set; }

    public string? NotAfter { get; set; }

    public bool ToHolding { get; set; }

    public string? PinnedDriver { get; set; }

    public string? PinnedPlace { get; set; }

    public bool Out { get; set; }
}

/// <summary>Chooses a run's stops and changes one of them.</summary>
public sealed class EditStops(IDbContextFactory<HatcheryDb> databases, RunBoard board, IEggGate gate, TimeProvider time)
{
    /// <summary>The tanks named are the run's stops from now on; if asked, eggs for those that are a no-go go to the holding tank. One that was ticked on the way already stays, whatever the form says.</summary>
    public async Task<Notice?> ChooseAsync(CurrentUser user, Guid runId, StopsForm form, CancellationToken cancel)
    {
        if (await board.FindAsync(user, runId, cancel) is not { } view)
        {
            return null;
        }

        var due = await board.DueAsync(view, cancel);
        var tanks = form.Tanks ?? [];
        var noGo = form.NoGoToHolding ? await gate.NoGoAsync(user, [.. due.Select(d => d.Tank.Id)], cancel) : new Dictionary<Guid, string>();
        await using var db = await databases.CreateDbContextAsync(cancel);
        var run = (await EditRun.RunAsync(db, user, runId, cancel))!;
        var rows = await db.RunStops.Where(s => s.RunId == runId).ToListAsync(cancel);
        foreach (var tank in due.Where(d => tanks.Contains(d.Tank.Id)))
        {
            if (rows.FirstOrDefault(s => s.TankId == tank.Tank.Id) is { } row)
            {
                row.OutAt = null;
                row.ToHolding |= noGo.ContainsKey(tank.Tank.Id);
            }
            else
            {
                db.Add(new RunStop { Id = Guid.CreateVersion7(), RunId = runId, TankId = tank.Tank.Id, LotId = tank.Lot.Id, Eggs = tank.Allotment.Eggs, ToHolding = noGo.ContainsKey(tank.Tank.Id) });
            }
        }

        var gone = rows.Where(s => s.OutAt is null && !tanks.Contains(s.TankId)).ToList();
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        foreach (var row in gone.Where(s => view.Ticks.All(t => t.StopId != s.Id)))
        {
            row.OutAt = now;
        }

        run.Changed();
        var kept = gone.Count(s => s.OutAt is null);
        return await EditRun.SavedAsync(
            db, $"{RunWords.Stops(due.Count(d => tanks.Contains(d.Tank.Id)) + kept)} in this run." + (kept > 0 ? $" {kept} of them stayed because its eggs were ticked on the way already." : ""), cancel);
    }

    /// <summary>The eggs of these stops go to the holding tank: their tanks are not ready.</summary>
    public async Task<Notice> HoldAsync(CurrentUser user, Guid runId, IReadOnlyList<Guid> stopIds, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { } run)
        {
            return new Notice(false, "This run is gone. Nothing was changed.");
        }

        if (!await db.RunPlaces.AnyAsync(p => p.RunId == runId && p.Kind == RunPlaceKind.HoldingTank, cancel))
        {
            return new Notice(false, "This run has no holding tank yet. Add one under places and drivers; nothing was changed.");
        }

        var rows = await db.RunStops.Where(s => s.RunId == runId && stopIds.Contains(s.Id) && !s.ToHolding).ToListAsync(cancel);
        rows.ForEach(s => s.ToHolding = true);
        run.Changed();
        return await EditRun.SavedAsync(db, $"The eggs of {RunWords.Stops(rows.Count)} go to the holding tank. Plan again, and the rounds follow.", cancel);
    }

    public async Task<Notice?> ChangeAsync(CurrentUser user, Guid runId, Guid stopId, StopForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var fields = new RunFields(refuse);
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await EditRun.RunAsync(db, user, runId, cancel) is not { } run || await db.RunStops.SingleOrDefaultAsync(s => s.Id == stopId && s.RunId == runId, cancel) is not { } stop)
        {
            return new Notice(false, "This stop is not in the run any more. Nothing was changed.");
        }

        var drivers = await db.RunDrivers.Where(d => d.RunId == runId).ToListAsync(cancel);
        var eggs = fields.Whole(nameof(form.Eggs), form.Eggs, 1, 20_000, "the eggs of the pack");
        if (!Enum.TryParse<VisitKind>(form.Visit, out var visit) || !Enum.IsDefined(visit))
        {
            fields.Refuse(nameof(form.Visit), "Say whether the driver talks with the class.");
        }

        var (from, until) = (fields.Time(nameof(form.NotBefore), form.NotBefore), fields.Time(nameof(form.NotAfter), form.NotAfter));
        if (from is { } first && until is { } last && last <= first)
        {
            fields.Refuse(nameof(form.NotAfter), "This ends before it begins. Please look at both times.");
        }

        var place = string.IsNullOrWhiteSpace(form.PinnedPlace) ? (int?)null : fields.Whole(nameof(form.PinnedPlace), form.PinnedPlace, 1, 60, "the place in the round");
        var pinned = drivers.FirstOrDefault(d => d.Id.ToString() == form.PinnedDriver)?.Id;
        if (!fields.AllGood)
        {
            return null;
        }

        (stop.Eggs, stop.Visit, stop.NotBefore, stop.NotAfter, stop.ToHolding) = (eggs, visit, from, until, form.ToHolding);
        (stop.PinnedDriverId, stop.PinnedPlace) = (pinned, place);
        stop.OutAt = form.Out ? stop.OutAt ?? Instants.ToMillisecond(time.GetUtcNow().UtcDateTime) : null;
        run.Changed();
        return await EditRun.SavedAsync(db, "Kept. Plan again, and the rounds follow.", cancel);
    }
}
