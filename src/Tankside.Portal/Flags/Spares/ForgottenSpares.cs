using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Spares;

/// <summary>A spare that is still reserved for a tank with nothing left in the round.</summary>
/// <param name="Flag">The tank's newest flag, whose history tells of the spare.</param>
public sealed record ForgottenSpare(KitItem Item, string TankCode, string Place, Flag Flag);

/// <summary>Reservations that have outlived their trouble: whoever closed the flag, or the reading that cleared it, did not think of the spare.</summary>
public static class ForgottenSpares
{
    public static async Task<IReadOnlyList<ForgottenSpare>> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var rows = await (
            from item in db.KitItems.AsNoTracking()
            join tank in db.Tanks on item.ReservedForTankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where item.ProgrammeId == programmeId && !db.Flags.Any(f => f.TankId == tank.Id && f.State == FlagState.Open)
            orderby item.Serial
            select new { item, tank.Id, tank.Code, Place = school.Name + ", " + room.Name }).ToListAsync(cancel);
        if (rows.Count == 0)
        {
            return [];
        }

        var tankIds = rows.Select(r => (Guid?)r.Id).ToList();
        var flags = (await db.Flags.AsNoTracking().Where(f => tankIds.Contains(f.TankId)).ToListAsync(cancel))
            .GroupBy(f => f.TankId!.Value).ToDictionary(g => g.Key, g => g.OrderBy(f => f.UpdatedAt).Last());
        return [.. rows.Where(r => flags.ContainsKey(r.Id)).Select(r => new ForgottenSpare(r.item, r.Code, r.Place, flags[r.Id]))];
    }
}
