using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Register;

public sealed class RoomForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one room.</summary>
    public Guid Id { get; set; }

    /// <summary>The room as the person saw it.</summary>
    public int Version { get; set; }

    public string? Name { get; set; }

    public bool NewTeacher { get; set; }
}

/// <summary>Adds a room to a school by hand, or changes it.</summary>
public sealed class KeepRoom(IDbContextFactory<HatcheryDb> databases)
{
    public Task<Notice?> AddAsync(CurrentUser user, Guid schoolId, RoomForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, schoolId, null, form, refuse, cancel), refuse);

    public Task<Notice?> ChangeAsync(CurrentUser user, Guid schoolId, Guid roomId, RoomForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, schoolId, roomId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, Guid schoolId, Guid? roomId, RoomForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (!await db.Schools.AnyAsync(s => s.Id == schoolId && s.ProgrammeId == user.ProgrammeId, cancel))
        {
            refuse("", "This school was taken out meanwhile. Nothing was saved.");
            return null;
        }

        var rooms = await db.Classrooms.Where(r => r.SchoolId == schoolId).ToListAsync(cancel);
        if (roomId is null && rooms.Exists(r => r.Id == form.Id))
        {
            return new Notice(true, "This room was added already.");
        }

        var typed = new TypedFields(refuse);
        var name = typed.Name(nameof(form.Name), form.Name, "Type the room’s name, such as Room 3.");
        if (rooms.Exists(r => r.Id != roomId && FieldReads.Same(r.Name) == FieldReads.Same(name)))
        {
            typed.Refuse(nameof(form.Name), $"This school has a room called {name} already.");
        }

        var room = roomId is null ? new Classroom { Id = form.Id, SchoolId = schoolId, Name = name } : rooms.Find(r => r.Id == roomId);
        if (room is null)
        {
            typed.Refuse("", "This room was taken out meanwhile. Nothing was saved.");
        }
        else if (roomId is not null && room.Version != form.Version)
        {
            form.Version = room.Version;
            typed.Refuse("", $"Somebody changed this room meanwhile: it is now {room.Name}, {Word(room)}. What you typed is kept below; send it again if it should replace that.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        (room!.Name, room.NewTeacher) = (name, form.NewTeacher);
        if (roomId is null)
        {
            db.Classrooms.Add(room);
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, roomId is null ? $"Added: {name}. Next its tank." : $"Saved: {name}, {Word(room)}.");
    }

    public static string Word(Classroom room) => room.NewTeacher ? "first season for its teacher" : "a teacher who has done it before";
}
