using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>A room whose backup the person was has none.</summary>
internal sealed class ForgetsInRooms : IForgetsPerson
{
    public async Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel)
    {
        foreach (var room in await RoomsOfAsync(db, person.PersonId, cancel))
        {
            (room.BackupName, room.BackupPhone) = (null, null);
        }
    }

    /// <summary>
    /// A backup has no account by that, so whoever has one is known by name or number, in the programmes that they are in.
    /// </summary>
    public static async Task<IReadOnlyList<Classroom>> RoomsOfAsync(HatcheryDb db, Guid personId, CancellationToken cancel)
    {
        var person = await db.Users.AsNoTracking().SingleAsync(p => p.Id == personId, cancel);
        var rooms = await db.Classrooms.Where(r => r.BackupName != null && db.Schools.Any(s => s.Id == r.SchoolId
            && db.Memberships.Any(m => m.PersonId == personId && m.ProgrammeId == s.ProgrammeId))).ToListAsync(cancel);
        return [.. rooms.Where(r => string.Equals(r.BackupName, person.Name, StringComparison.OrdinalIgnoreCase)
            || (Digits(person.PhoneNumber) is { Length: > 0 } number && Digits(r.BackupPhone) == number))];
    }

    private static string Digits(string? phone) => new([.. (phone ?? "").Where(char.IsAsciiDigit)]);
}
