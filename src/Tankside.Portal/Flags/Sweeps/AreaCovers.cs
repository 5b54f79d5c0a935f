using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>What a mark over an area covers.</summary>
/// <param name="Area">The area as schools name it; empty for the whole programme.</param>
public sealed record AreaCover(string Area, int Schools, int Tanks, int Teachers)
{
    /// <summary>"14 schools, 16 tanks, 12 teachers".</summary>
    public string Words =>
        $"{CountWords.Count(Schools, "school", "schools")}, {CountWords.Count(Tanks, "tank", "tanks")}, {CountWords.Count(Teachers, "teacher", "teachers")}";

    public string Name => CountWords.Capital(SweepWords.Area(Area));
}

/// <summary>The areas of a programme with what lies in them, told before anything is marked.</summary>
public sealed class AreaCovers(IDbContextFactory<HatcheryDb> databases)
{
    private sealed record SchoolCover(string Area, int Tanks, int Teachers);

    /// <summary>The areas by name, the whole programme last.</summary>
    public async Task<IReadOnlyList<AreaCover>> LoadAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var schools = await db.Schools.Where(s => s.ProgrammeId == programmeId).Select(s => new SchoolCover(
            s.Area,
            db.Tanks.Count(t => t.ClosedAt == null && db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == s.Id)),
            db.Memberships.Count(m => m.SchoolId == s.Id && m.Role == Role.Teacher))).ToListAsync(cancel);
        return
        [
            .. schools.Where(s => s.Area.Length > 0).GroupBy(s => s.Area).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => Sum(g.Key, g)),
            Sum("", schools),
        ];
    }

    private static AreaCover Sum(string area, IEnumerable<SchoolCover> schools)
    {
        var withTanks = schools.Where(s => s.Tanks > 0).ToList();
        return new AreaCover(area, withTanks.Count, withTanks.Sum(s => s.Tanks), withTanks.Sum(s => s.Teachers));
    }
}
