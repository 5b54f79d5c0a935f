using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Places.Labels;

/// <summary>A tank with the code that is valid for it, or none.</summary>
/// <param name="Replaced">When a code before was last revoked.</param>
public sealed record LabelledTank(Tank Tank, string Room, RoomCode? Code, DateTime? Replaced);

public sealed record LabelledSchool(Guid Id, string Name, IReadOnlyList<LabelledTank> Tanks);

/// <summary>The labels of the tanks that somebody may see, school by school.</summary>
public sealed record LabelBook(Programme Programme, IReadOnlyList<LabelledSchool> Schools)
{
    public IEnumerable<LabelledTank> Tanks => Schools.SelectMany(s => s.Tanks);
}

/// <summary>Loads labels for whoever may hand them out.</summary>
public sealed class SchoolLabels(IDbContextFactory<HatcheryDb> databases, TanksideOptions options)
{
    /// <summary>Tanks closed for the season are left out: nobody is to enter a reading there.</summary>
    public async Task<LabelBook> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        var schools = await db.Schools.AsNoTracking()
            .Where(s => s.ProgrammeId == user.ProgrammeId && (user.Role != Role.Teacher || s.Id == user.SchoolId))
            .OrderBy(s => s.Name).ThenBy(s => s.Id).Select(s => new { s.Id, s.Name }).ToListAsync(cancel);
        var tanks = await (
            from tank in db.TanksOf(user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where tank.ClosedAt == null
            orderby tank.Code
            select new { tank, room.Name, room.SchoolId }).ToListAsync(cancel);
        var ids = tanks.Select(t => t.tank.Id).ToList();
        var codes = (await db.RoomCodes.AsNoTracking().Where(c => ids.Contains(c.TankId)).ToListAsync(cancel)).ToLookup(c => c.TankId);
        return new LabelBook(programme, [.. schools.Select(s => new LabelledSchool(s.Id, s.Name, [.. tanks
            .Where(t => t.SchoolId == s.Id)
            .Select(t => new LabelledTank(t.tank, t.Name, Valid(codes[t.tank.Id]), codes[t.tank.Id].Max(c => c.RevokedAt)))]))]);
    }

    /// <summary>The label of one tank; null where it is not the asker's, is closed or has no code.</summary>
    public async Task<TankLabel?> OfTankAsync(CurrentUser user, string tankCode, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var row = await (
            from tank in db.TanksOf(user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join code in db.RoomCodes on tank.Id equals code.TankId
            where tank.Code == tankCode && tank.ClosedAt == null && code.RevokedAt == null
            orderby code.IssuedAt descending
            select new { tank.Code, Room = room.Name, School = school.Name, Secret = code.Code }).FirstOrDefaultAsync(cancel);
        return row is null ? null : new TankLabel(row.Code, row.Room, row.School, row.Secret, options.PublicUrl);
    }

    /// <summary>The labels of schools, in their order; a tank without a code has none.</summary>
    public IReadOnlyList<TankLabel> LabelsOf(IEnumerable<LabelledSchool> schools) =>
    [
        .. from school in schools
           from tank in school.Tanks
           let code = tank.Code
           where code is not null
           select new TankLabel(tank.Tank.Code, tank.Room, school.Name, code.Code, options.PublicUrl),
    ];

    /// <summary>Notes that a file to print was made with these codes; it is as near as the portal comes to knowing that a label hangs.</summary>
    public async Task NotePrintedAsync(IReadOnlyList<TankLabel> labels, DateTime at, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var codes = labels.Select(l => l.RoomCode).ToList();
        await db.RoomCodes.Where(c => codes.Contains(c.Code) && c.RevokedAt == null).ExecuteUpdateAsync(set => set.SetProperty(c => c.PrintedAt, at), cancel);
    }

    private static RoomCode? Valid(IEnumerable<RoomCode> codes) => codes.Where(c => c.RevokedAt is null).MaxBy(c => c.IssuedAt);
}
