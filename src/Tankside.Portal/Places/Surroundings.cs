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
            where tankIds.Contains(tank.Id)
            select new { tank, room, school, programme }).ToListAsync(cancel);
        var programmes = rows.Select(r => r.programme.Id).Distinct().ToList();
        var schools = rows.Select(r => r.school.Id).Distinct().ToList();
        var closures = await ClosuresAsync(db, programmes, schools, cancel);
        var settings = await db.Settings.AsNoTracking().Where(s => programmes.Contains(s.ProgrammeId)).ToListAsync(cancel);
        var texts = (await db.OwnTexts.AsNoTracking().Where(t => programmes.Contains(t.ProgrammeId)).ToListAsync(cancel)).ToLookup(t => t.ProgrammeId);
        var sweeps = await SweepsAsync(db, programmes, cancel);

        var calendars = new Dictionary<Guid, SchoolCalendar>();
        var own = programmes.ToDictionary(
            p => p, p => (IReadOnlyDictionary<string, double>)settings.Where(s => s.ProgrammeId == p).ToDictionary(s => s.Key, s => s.Value));
        var words = programmes.ToDictionary(p => p, p => new OwnTexts(texts[p]));
        var result = new Surroundings();
        foreach (var row in rows)
        {
            if (!calendars.TryGetValue(row.school.Id, out var calendar))
            {
                calendars[row.school.Id] = calendar = CalendarOf(row.school, row.programme, closures, sweeps, now);
            }

            result.places[row.tank.Id] = new TankPlace(row.tank, row.room, row.school, row.programme, calendar, own[row.programme.Id])
            {
                Sweeps = [.. SweepsOver(row.school, sweeps)],
                OwnTexts = words[row.programme.Id],
            };
        }

        return result;
    }

    /// <summary>The calendars of some schools of one programme, and its own numbers; in three queries.</summary>
    public static async Task<(IReadOnlyDictionary<Guid, SchoolCalendar> Calendars, IReadOnlyDictionary<string, double> OwnSettings)> CalendarsAsync(
        HatcheryDb db, Programme programme, IReadOnlyList<School> schools, CancellationToken cancel, DateTime? now = null)
    {
        var closures = await ClosuresAsync(db, [programme.Id], [.. schools.Select(s => s.Id)], cancel);
        var sweeps = await SweepsAsync(db, [programme.Id], cancel);
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == programme.Id).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        return (schools.ToDictionary(s => s.Id, s => CalendarOf(s, programme, closures, sweeps, now)), own);
    }

    private static Task<List<Closure>> ClosuresAsync(HatcheryDb db, List<Guid> programmes, List<Guid> schools, CancellationToken cancel) =>
        db.Closures.AsNoTracking().Where(c => programmes.Contains(c.ProgrammeId) && (c.SchoolId == null || schools.Contains(c.SchoolId.Value))).ToListAsync(cancel);

    private static Task<List<AreaSweep>> SweepsAsync(HatcheryDb db, List<Guid> programmes, CancellationToken cancel) =>
        db.AreaSweeps.AsNoTracking().Where(s => programmes.Contains(s.ProgrammeId)).OrderBy(s => s.From).ToListAsync(cancel);

    public static SchoolCalendar CalendarOf(
        School school, Programme programme, IEnumerable<Closure> closures, IEnumerable<AreaSweep> sweeps, DateTime? now)
    {
        var clock = ProgrammeClock.Of(programme.TimeZone);
        return new SchoolCalendar(
            clock, school.OpensAt, school.ClosesAt,
            [.. closures.Where(c => c.ProgrammeId == programme.Id && (c.SchoolId is null || c.SchoolId == school.Id)).Select(c => (c.FirstDay, c.LastDay))],
            [.. SweepsOver(school, sweeps).Select(s => s.ShutDays(clock, school.OpensAt, school.ClosesAt, now)).OfType<(DateOnly, DateOnly)>()]);
    }

    private static IEnumerable<AreaSweep> SweepsOver(School school, IEnumerable<AreaSweep> sweeps) =>
        sweeps.Where(s => s.ProgrammeId == school.ProgrammeId && s.IsFor(school.Area));
}
