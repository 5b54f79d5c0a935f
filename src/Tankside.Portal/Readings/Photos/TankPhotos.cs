using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Photos;

/// <summary>What is asked about a photo.</summary>
public sealed class PhotoForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one photo.</summary>
    public Guid Id { get; set; }

    public PhotoOf Shows { get; set; }

    public IFormFile? Picture { get; set; }

    public string? Note { get; set; }

    /// <summary>Somebody looked that no person and no name is in it.</summary>
    public bool Looked { get; set; }
}

/// <summary>A photo without its picture, for the list.</summary>
public sealed record ListedPhoto(Guid Id, PhotoOf Shows, DateTime ReceivedAt, string? Note, int Width, int Height, string SentBy);

/// <summary>A tank with its photos, the newest first.</summary>
public sealed record TankAlbum(Tank Tank, string Room, string School, Programme Programme, IReadOnlyList<ListedPhoto> Photos);

/// <summary>Photos of a tank and its kit, for the adults who look after it and nobody else.</summary>
public sealed class TankPhotos(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say, ILogger<TankPhotos> log)
{
    public const int MostBytes = RedrawnPhoto.MostBytes;

    /// <summary>Null when there is no such tank for this person.</summary>
    public async Task<TankAlbum?> LoadAsync(CurrentUser user, string tankCode, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var at = await (
            from tank in db.TanksOf(user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join programme in db.Programmes on tank.ProgrammeId equals programme.Id
            where tank.Code == tankCode
            select new { tank, Room = room.Name, School = school.Name, programme }).AsNoTracking().SingleOrDefaultAsync(cancel);
        if (at is null)
        {
            return null;
        }

        var photos = await (
            from photo in db.TankPhotos
            join person in db.Users on photo.SentBy equals person.Id into people
            from person in people.DefaultIfEmpty()
            where photo.TankId == at.tank.Id && photo.RemovedAt == null
            orderby photo.ReceivedAt descending, photo.Id
            select new ListedPhoto(
                photo.Id, photo.Shows, photo.ReceivedAt, photo.Note, photo.Width, photo.Height, person == null ? "" : person.Name)).ToListAsync(cancel);
        return new TankAlbum(at.tank, at.Room, at.School, at.programme, photos);
    }

    /// <summary>The picture; null where the photo is not of this tank, was taken down or is not the asker's to see.</summary>
    public async Task<byte[]?> PictureAsync(CurrentUser user, string tankCode, Guid photoId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.TankPhotos
            .Where(p => p.Id == photoId && p.RemovedAt == null && db.TanksOf(user).Any(t => t.Id == p.TankId && t.Code == tankCode))
            .Select(p => p.Content).SingleOrDefaultAsync(cancel);
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> AddAsync(CurrentUser user, TankAlbum album, PhotoForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var note = string.IsNullOrWhiteSpace(form.Note) ? null : form.Note.Trim();
        var good = true;
        RefuseWhen(!Enum.IsDefined(form.Shows), nameof(form.Shows), "Choose what it shows: the tank or its kit.");
        RefuseWhen(form.Picture is null or { Length: 0 }, nameof(form.Picture), "Choose a picture: a JPEG, PNG or WebP file.");
        RefuseWhen(form.Picture is { Length: > MostBytes }, nameof(form.Picture), say.Of("This file has {0} MB; at most {1} fit. Send a smaller one; nothing was stored.", ((form.Picture?.Length ?? 0) / 1048576.0).ToString("0.0", CultureInfo.InvariantCulture), MostBytes / 1048576));
        RefuseWhen(note is { Length: > ObservationRules.LongestNote }, nameof(form.Note), say.Of("At most {0} characters fit here; this has {1}.", ObservationRules.LongestNote, note?.Length));
        RefuseWhen(!form.Looked, nameof(form.Looked), "Look at the picture once more and say that nobody is in it. If somebody is, take another.");
        if (!good)
        {
            return null;
        }

        switch (await RedrawnPhoto.OfAsync(form.Picture!, cancel))
        {
            case RedrawnPhoto.Refused(var why):
                refuse(nameof(form.Picture), why);
                return null;
            case RedrawnPhoto.Picture drawn:
                return await KeepAsync(user, album, form, note, drawn, cancel);
            default:
                throw new InvalidOperationException("a picture is either drawn or refused");
        }

        void RefuseWhen(bool when, string field, string why)
        {
            if (when)
            {
                good = false;
                refuse(field, why);
            }
        }
    }

    /// <summary>Empties a photo for good. That there was one, and who took it down, is kept.</summary>
    public async Task<Notice> TakeDownAsync(CurrentUser user, string tankCode, Guid photoId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var emptied = await db.TankPhotos
            .Where(p => p.Id == photoId && p.RemovedAt == null && db.TanksOf(user).Any(t => t.Id == p.TankId && t.Code == tankCode))
            .ExecuteUpdateAsync(
                set => set.SetProperty(p => p.Content, Array.Empty<byte>()).SetProperty(p => p.RemovedAt, now).SetProperty(p => p.RemovedBy, user.PersonId), cancel);
        if (emptied == 0)
        {
            return new Notice(true, "This photo is gone already.");
        }

        log.LogInformation("{Person} took down photo {Photo} of {Tank}", user.PersonId, photoId, tankCode);
        return new Notice(true, "The photo is taken down. The picture is deleted, here and for everybody.");
    }

    private async Task<Notice> KeepAsync(
        CurrentUser user, TankAlbum album, PhotoForm form, string? note, RedrawnPhoto.Picture drawn, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var kept = new Notice(true, say.Of("The photo is kept, {0} by {1} dots, without place and time of taking.", drawn.Width, drawn.Height));
        if (await db.TankPhotos.AnyAsync(p => p.Id == form.Id && p.TankId == album.Tank.Id, cancel))
        {
            return kept;
        }

        db.TankPhotos.Add(new TankPhoto
        {
            // An id that another tank's photo has is not ours: this one gets its own.
            Id = form.Id == Guid.Empty || await db.TankPhotos.AnyAsync(p => p.Id == form.Id, cancel) ? Guid.NewGuid() : form.Id,
            TankId = album.Tank.Id,
            Shows = form.Shows,
            ReceivedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            SentBy = user.PersonId,
            Note = note,
            Width = drawn.Width,
            Height = drawn.Height,
            Content = drawn.Jpeg,
        });
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            // The same form was sent twice at once; the other one is saved.
        }

        return kept;
    }
}
