using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>A tank as a sheet can mean it.</summary>
public sealed record NamedTank(Guid Id, string Code, TemperatureUnit UsualUnit, string School, string Room, TimeOnly OpensAt);

/// <summary>The tanks that somebody may bring readings for, by what sheets call them: a code, or a school or room that has only one.</summary>
public sealed class TankNames
{
    private readonly Dictionary<string, NamedTank?> byName = new(StringComparer.Ordinal);

    public TankNames(IReadOnlyList<NamedTank> tanks)
    {
        All = tanks;
        foreach (var tank in tanks)
        {
            foreach (var name in new[] { $"{tank.School} {tank.Room}", tank.School, tank.Room }.Select(Headings.Plain).Distinct())
            {
                byName[name] = byName.ContainsKey(name) ? null : tank;
            }
        }

        foreach (var tank in tanks)
        {
            byName[Headings.Plain(tank.Code)] = tank;
            byName[Headings.Plain($"tank {tank.Code}")] = tank;
        }
    }

    public IReadOnlyList<NamedTank> All { get; }

    /// <summary>Null for a name that none, or more than one, of the tanks has.</summary>
    public NamedTank? Find(string name) => byName.GetValueOrDefault(Headings.Plain(name));

    public static async Task<TankNames> OfAsync(HatcheryDb db, CurrentUser? user, CancellationToken cancel)
    {
        if (user is null || !Policies.Roles[Policies.Ledger].Contains(user.Role))
        {
            return new TankNames([]);
        }

        var own = Within(db, user);
        return new TankNames(await (
            from tank in own
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            orderby tank.Code
            select new NamedTank(tank.Id, tank.Code, tank.UsualUnit, school.Name, room.Name, school.OpensAt)).ToListAsync(cancel));
    }

    private static IQueryable<Tank> Within(HatcheryDb db, CurrentUser user)
    {
        var own = db.Tanks.AsNoTracking().Where(t => t.ProgrammeId == user.ProgrammeId);
        return user.Role == Role.Teacher ? own.Where(t => db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == user.SchoolId)) : own;
    }
}
