using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>A tank with its room, its school, its calendar and its programme's own numbers.</summary>
public sealed record TankPlace(
    Tank Tank, Classroom Room, School School, Programme Programme, SchoolCalendar Calendar, IReadOnlyDictionary<string, double> OwnSettings)
{
    /// <summary>The marks over the school's area, whether they hold still or not.</summary>
    public IReadOnlyList<AreaSweep> Sweeps { get; init; } = [];

    /// <summary>What the programme says in its own words.</summary>
    public OwnTexts OwnTexts { get; init; } = OwnTexts.None;
}

/// <summary>Loads the surroundings of many tanks in a fixed number of queries.</summary>
public sealed class Surroundings
{
    private readonly Dictionary<Guid, TankPlace> places = [];

    private Surroundings()
    {
    }

    public IReadOnlyCollection<TankPlace> All => places.Values;

    public bool Knows(Guid tankId) => places.ContainsKey(tankId);

    public TankPlace Of(Guid tankId) => places[tankId];

    /// <param name="now">The moment of judging, by which an area shut without an end is shut still; null where days to come do not matter.</param>
    public static async Task<Surroundings> LoadAsync(
        HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel, DateTime? now = null)
    {
        var rows = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join programme in db.Programmes on tank.ProgrammeId equals programme.Id
            join stamp in db.WaysStamps on programme.Id equals stamp.ProgrammeId into stamps
            from stamp in stamps.DefaultIfEmpty()
            where tankIds.Contains(tank.Id)
            select new { tank, room, school, programme, Stamp = stamp == null ? null : (long?)stamp.Stamp }).ToListAsync(cancel);
        var all = await ProgrammeWays.OfAsync(db, rows.DistinctBy(r => r.programme.Id).ToDictionary(r => r.programme.Id, r => r.Stamp), cancel);

        var schools = new Dictionary<Guid, (SchoolCalendar Calendar, IReadOnlyList<AreaSweep> Sweeps)>();
        var result = new Surroundings();
        foreach (var row in rows)
        {
            var ways = all[row.programme.Id];
            if (!schools.TryGetValue(row.school.Id, out var school))
            {
                schools[row.school.Id] = school = (ways.CalendarOf(row.school, row.programme, now), ways.SweepsOver(row.school));
            }

            result.places[row.tank.Id] = new TankPlace(row.tank, row.room, row.school, row.programme, school.Calendar, ways.OwnSettings)
            {
                Sweeps = school.Sweeps,
                OwnTexts = ways.Texts,
            };
        }

        return result;
    }
}
