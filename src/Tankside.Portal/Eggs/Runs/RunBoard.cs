using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>A line of the list of runs.</summary>
public sealed record RunLine(DeliveryRun Run, int Stops, int Ended, int LeftOut);

/// <summary>A tank that can be a stop: eggs are allotted to it.</summary>
public sealed record DueTank(Tank Tank, Classroom Room, School School, EggLot Lot, Allotment Allotment, bool HasReceipt, bool IsInRun);

/// <summary>Reads runs. A run of another programme is not found.</summary>
public sealed class RunBoard(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<IReadOnlyList<RunLine>> LinesAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var runs = await db.DeliveryRuns.AsNoTracking().Where(r => r.ProgrammeId == user.ProgrammeId).OrderByDescending(r => r.On).ThenBy(r => r.Name).ToListAsync(cancel);
        var ids = runs.Select(r => r.Id).ToList();
        var stops = await db.RunStops.AsNoTracking().Where(s => ids.Contains(s.RunId) && s.OutAt == null).ToListAsync(cancel);
        var ticks = (await db.RunTicks.AsNoTracking().Where(t => ids.Contains(t.RunId)).ToListAsync(cancel)).ToLookup(t => t.StopId);
        return [.. runs.Select(run =>
        {
            var own = stops.Where(s => s.RunId == run.Id).ToList();
            return new RunLine(run, own.Count, own.Count(s => Custody.Of(s.Id, s.Eggs, ticks[s.Id]).Place is not (PackPlace.AtTheDepot or PackPlace.InACar)), own.Count(s => s.Dropped is not null));
        })];
    }

    public async Task<RunView?> FindAsync(CurrentUser user, Guid runId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, user.ProgrammeId, runId, Now, cancel);
    }

    /// <summary>The run that a driver's code opens, until two days after it; with the driver.</summary>
    public async Task<(RunView View, RunDriver Driver)?> FindAsync(string code, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var normal = RoomCodes.Normalise(code);
        if (await db.RunDrivers.AsNoTracking().SingleOrDefaultAsync(d => d.Code == normal, cancel) is not { } driver)
        {
            return null;
        }

        var programme = await db.DeliveryRuns.Where(r => r.Id == driver.RunId).Select(r => r.ProgrammeId).SingleAsync(cancel);
        var view = (await LoadAsync(db, programme, driver.RunId, Now, cancel))!;
        return view.Clock.Day(view.Now) <= view.Run.On.AddDays(DaysOpen) ? (view, view.Drivers.Single(d => d.Id == driver.Id)) : null;
    }

    /// <summary>How long after its day a driver's sheet still opens, so that a phone left in the car can send what it kept.</summary>
    public const int DaysOpen = 2;

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    public static async Task<RunView?> LoadAsync(HatcheryDb db, Guid programmeId, Guid runId, DateTime now, CancellationToken cancel)
    {
        if (await db.DeliveryRuns.AsNoTracking().SingleOrDefaultAsync(r => r.Id == runId && r.ProgrammeId == programmeId, cancel) is not { } run)
        {
            return null;
        }

        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var ticks = await db.RunTicks.AsNoTracking().Where(t => t.RunId == runId).ToListAsync(cancel);
        var receipts = (await db.Receipts.AsNoTracking().Where(r => r.SeasonId == run.SeasonId && r.StopId != null).ToListAsync(cancel)).ToLookup(r => r.StopId);
        var rows = await (
            from stop in db.RunStops.AsNoTracking()
            join tank in db.Tanks on stop.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join lot in db.EggLots on stop.LotId equals lot.Id
            where stop.RunId == runId
            orderby school.Name, tank.Code
            select new { stop, tank, room, school, lot }).ToListAsync(cancel);
        return new RunView(
            run,
            programme,
            ProgrammeClock.Of(programme.TimeZone),
            now,
            await db.RunPlaces.AsNoTracking().Where(p => p.RunId == runId).OrderBy(p => p.Kind).ThenBy(p => p.Name).ToListAsync(cancel),
            await db.RunDrivers.AsNoTracking().Where(d => d.RunId == runId).OrderBy(d => d.Number).ToListAsync(cancel),
            [.. rows.Select(r => new StopView(r.stop, r.tank, r.room, r.school, r.lot, Custody.Of(r.stop.Id, r.stop.Eggs, ticks), receipts[r.stop.Id].MinBy(x => x.At)))],
            await db.Closures.AsNoTracking().Where(c => c.ProgrammeId == programmeId && c.FirstDay <= run.On && run.On <= c.LastDay).ToListAsync(cancel),
            ticks)
        {
            // A mark that is long over or still to come shuts no school on the day; those around it are few.
            Marks = await db.AreaSweeps.AsNoTracking().Where(s => s.ProgrammeId == programmeId && (s.EndedAt == null || s.EndedAt > now.AddDays(-2))).ToListAsync(cancel),
        };
    }

    /// <summary>Every tank of the run's season that eggs are allotted to, those of this day first.</summary>
    public async Task<IReadOnlyList<DueTank>> DueAsync(RunView view, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var received = await db.Receipts.Where(r => r.SeasonId == view.Run.SeasonId).Select(r => r.TankId).Distinct().ToListAsync(cancel);
        var rows = await (
            from allotment in db.Allotments.AsNoTracking()
            join tank in db.Tanks on allotment.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join lot in db.EggLots on allotment.LotId equals lot.Id
            where allotment.SeasonId == view.Run.SeasonId && tank.ClosedAt == null
            orderby school.Name, tank.Code
            select new { tank, room, school, lot, allotment }).ToListAsync(cancel);
        return [.. rows
            .Select(r => new DueTank(r.tank, r.room, r.school, r.lot, r.allotment, received.Contains(r.tank.Id), view.Stops.Any(s => s.Tank.Id == r.tank.Id && s.Stop.OutAt is null)))
            .Where(t => !t.HasReceipt || t.IsInRun)
            .OrderBy(t => t.Allotment.DeliveryOn == view.Run.On ? 0 : 1)];
    }
}
