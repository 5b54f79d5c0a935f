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
    private static readonly Compiled<IReadOnlyList<Guid>, Row> Rows = new((db, tankIds) =>
        from tank in db.Tanks.AsNoTracking()
        join room in db.Classrooms on tank.ClassroomId equals room.Id
        join school in db.Schools on room.SchoolId equals school.Id
        join programme in db.Programmes on tank.ProgrammeId equals programme.Id
        join stamp in db.WaysStamps on programme.Id equals stamp.ProgrammeId into stamps
        from stamp in stamps.DefaultIfEmpty()
        where tankIds.Contains(tank.Id)
        select new Row(tank, room, school, programme, stamp == null ? null : (long?)stamp.Stamp));

    private readonly Dictionary<Guid, TankPlace> places = [];

    private sealed record Row(Tank Tank, Classroom Room, School School, Programme Programme, long? Stamp);

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
        var rows = await Rows.ToListAsync(db, tankIds, cancel);
        var all = await ProgrammeWays.OfAsync(db, rows.DistinctBy(r => r.Programme.Id).ToDictionary(r => r.Programme.Id, r => r.Stamp), cancel);

        var schools = new Dictionary<Guid, (SchoolCalendar Calendar, IReadOnlyList<AreaSweep> Sweeps)>();
        var result = new Surroundings();
        foreach (var row in rows)
        {
            var ways = all[row.Programme.Id];
            if (!schools.TryGetValue(row.School.Id, out var school))
            {
                schools[row.School.Id] = school = (ways.CalendarOf(row.School, row.Programme, now), ways.SweepsOver(row.School));
            }

            result.places[row.Tank.Id] = new TankPlace(row.Tank, row.Room, row.School, row.Programme, school.Calendar, ways.OwnSettings)
            {
                Sweeps = school.Sweeps,
                OwnTexts = ways.Texts,
            };
        }

        return result;
    }
}
