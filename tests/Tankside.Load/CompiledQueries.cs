using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Places;
using Tankside.Storage;

namespace Tankside.Load;

/// <summary>
/// What the portal pays for asking in the ordinary way: EF takes each question apart to find what it made of it before. Beside it the same question
/// compiled once. Of a small one, a label's tank, and of one as large as most, a tank with what stands around it.
/// </summary>
public static class CompiledQueries
{
    private static readonly Func<HatcheryDb, string, CancellationToken, Task<Guid>> Label = EF.CompileAsyncQuery(
        (HatcheryDb db, string code, CancellationToken _) => db.RoomCodes.Where(c => c.Code == code && c.RevokedAt == null).Select(c => c.TankId).SingleOrDefault());

    private static readonly Func<HatcheryDb, Guid, CancellationToken, Task<Around?>> Surroundings = EF.CompileAsyncQuery(
        (HatcheryDb db, Guid id, CancellationToken _) => (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join programme in db.Programmes on tank.ProgrammeId equals programme.Id
            where tank.Id == id
            select new Around(
                tank, room.Name, school.Name, programme.TimeZone,
                db.Flags.Count(f => f.TankId == tank.Id),
                db.Receipts.Where(r => r.TankId == tank.Id).OrderByDescending(r => r.At).Select(r => (DateTime?)r.At).FirstOrDefault())).SingleOrDefault());

    public static async Task<IReadOnlyList<Comparison>> MeasureAsync(DatabaseKind kind, bool quick)
    {
        await using var place = await LoadPlace.CreateAsync(kind, 50);
        var databases = place.Portal.Services.GetRequiredService<IDbContextFactory<HatcheryDb>>();
        var times = quick ? 300 : 3000;
        return
        [
            await Comparison.RunAsync(
                "a label’s tank looked up, beside the compiled question", kind, quick ? 3 : 9, s => Comparison.PerSecond("look-ups", s),
                portal: () => TimedAsync(databases, times, async (db, i) =>
                {
                    var code = place.Codes[i % place.Codes.Count].Code;
                    return await db.RoomCodes.Where(c => c.Code == code && c.RevokedAt == null).Select(c => c.TankId).SingleOrDefaultAsync() != Guid.Empty;
                }),
                bare: () => TimedAsync(databases, times, async (db, i) => await Label(db, place.Codes[i % place.Codes.Count].Code, default) != Guid.Empty)),
            await Comparison.RunAsync(
                "a tank with what is around it, beside the compiled question", kind, quick ? 3 : 9, s => Comparison.PerSecond("look-ups", s),
                portal: () => TimedAsync(databases, times, async (db, i) =>
                {
                    var id = place.Tanks[i % place.Tanks.Count].Id;
                    return await (
                        from tank in db.Tanks.AsNoTracking()
                        join room in db.Classrooms on tank.ClassroomId equals room.Id
                        join school in db.Schools on room.SchoolId equals school.Id
                        join programme in db.Programmes on tank.ProgrammeId equals programme.Id
                        where tank.Id == id
                        select new Around(
                            tank, room.Name, school.Name, programme.TimeZone,
                            db.Flags.Count(f => f.TankId == tank.Id),
                            db.Receipts.Where(r => r.TankId == tank.Id).OrderByDescending(r => r.At).Select(r => (DateTime?)r.At).FirstOrDefault())).SingleOrDefaultAsync() is not null;
                }),
                bare: () => TimedAsync(databases, times, async (db, i) => await Surroundings(db, place.Tanks[i % place.Tanks.Count].Id, default) is not null)),
        ];
    }

    private static async Task<Side> TimedAsync(IDbContextFactory<HatcheryDb> databases, int times, Func<HatcheryDb, int, Task<bool>> foundAsync)
    {
        var watch = Stopwatch.StartNew();
        for (var i = 0; i < times; i++)
        {
            await using var db = await databases.CreateDbContextAsync();
            if (!await foundAsync(db, i))
            {
                throw new InvalidOperationException("Nothing was found: that would measure something else.");
            }
        }

        return new Side(watch.Elapsed.TotalSeconds / times);
    }

    private sealed record Around(Tank Tank, string Room, string School, string Zone, int Flags, DateTime? Came);
}
