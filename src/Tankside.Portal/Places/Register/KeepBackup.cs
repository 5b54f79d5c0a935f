using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

public sealed class BackupForm
{
    public string? Name { get; set; }

    public string? Phone { get; set; }
}

/// <summary>Keeps whom to ring about a room when its teacher is not reached: an adult who has said yes to it.</summary>
public sealed class KeepBackup(IDbContextFactory<HatcheryDb> databases, Say say)
{
    /// <summary>The room of a tank that the asker looks after; null when there is none.</summary>
    public async Task<Classroom?> FindAsync(CurrentUser user, string tankCode, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await RoomOf(db, user, tankCode).AsNoTracking().SingleOrDefaultAsync(cancel);
    }

    /// <summary>Both empty takes the backup out. Null when it was refused and the field says why.</summary>
    public Task<Notice?> HandleAsync(CurrentUser user, string tankCode, BackupForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, tankCode, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string tankCode, BackupForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var (name, phone) = (typed.Text(nameof(form.Name), form.Name), typed.Text(nameof(form.Phone), form.Phone));
        if (name is null != phone is null)
        {
            typed.Refuse(name is null ? nameof(form.Name) : nameof(form.Phone), say["Give both the name and the number, or leave both empty for nobody."]);
        }

        if (phone is not null && (phone.Length > EditMe.LongestPhone || !phone.Any(char.IsAsciiDigit)))
        {
            typed.Refuse(nameof(form.Phone), say["Give a number that can be rung, such as 555 0100."]);
        }

        if (name is { Length: > EditMe.LongestName })
        {
            typed.Refuse(nameof(form.Name), say.Of("At most {0} characters, please.", EditMe.LongestName));
        }

        if (!typed.AllGood)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        // Looked up by its id: what asks for the tanks that somebody sees is only read, and so would be the room found through it.
        var id = await RoomOf(db, user, tankCode).Select(r => (Guid?)r.Id).SingleOrDefaultAsync(cancel);
        if (await db.Classrooms.SingleOrDefaultAsync(r => r.Id == id, cancel) is not { } room)
        {
            return new Notice(false, say["This tank is not there any more. Nothing was saved."]);
        }

        (room.BackupName, room.BackupPhone) = (name, phone);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, name is null ? say.Of("Nobody is kept as the backup of {0}.", room.Name) : say.Of("{0} is kept as the backup of {1}.", name, room.Name));
    }

    private static IQueryable<Classroom> RoomOf(HatcheryDb db, CurrentUser user, string tankCode) =>
        db.Classrooms.Where(r => db.TanksOf(user).Any(t => t.ClassroomId == r.Id && t.Code == tankCode));
}
