using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>What is asked about a photo of a piece of kit.</summary>
public sealed class KitPhotoForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one photo.</summary>
    public Guid Id { get; set; }

    public IFormFile? Picture { get; set; }

    public string? Note { get; set; }

    /// <summary>Somebody looked that no person and no name is in it.</summary>
    public bool Looked { get; set; }
}

/// <summary>A photo without its picture, for the list.</summary>
public sealed record ListedKitPhoto(Guid Id, DateTime ReceivedAt, string? Note, int Width, int Height, Guid SentBy);

/// <summary>Photos of a piece of kit, for those who keep the register.</summary>
public sealed class KitPhotos(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say, ILogger<KitPhotos> log)
{
    public async Task<IReadOnlyList<ListedKitPhoto>> LoadAsync(KitItem item, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.KitPhotos.Where(p => p.ItemId == item.Id && p.RemovedAt == null).OrderByDescending(p => p.ReceivedAt).ThenBy(p => p.Id)
            .Select(p => new ListedKitPhoto(p.Id, p.ReceivedAt, p.Note, p.Width, p.Height, p.SentBy)).ToListAsync(cancel);
    }

    internal static async Task<IResult> GetAsync(string serial, Guid id, HttpContext context, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel)
    {
        var user = CurrentUser.From(context.User)!;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var picture = await db.KitPhotos
            .Where(p => p.Id == id && p.RemovedAt == null && db.KitItems.Any(k => k.Id == p.ItemId && k.ProgrammeId == user.ProgrammeId && k.Serial == serial))
            .Select(p => p.Content).SingleOrDefaultAsync(cancel);
        if (picture is null)
        {
            return TypedResults.NotFound();
        }

        // Only in the asker's own browser, and asked for again each time: a photo taken down is gone there too.
        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Bytes(picture, "image/jpeg");
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> AddAsync(CurrentUser user, KitItem item, KitPhotoForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse, say);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (form.Picture is null or { Length: 0 })
        {
            typed.Refuse(nameof(form.Picture), "Choose a picture: a JPEG, PNG or WebP file.");
        }
        else if (form.Picture.Length > RedrawnPhoto.MostBytes)
        {
            typed.Refuse(nameof(form.Picture), say.Of("This file has {0} MB; at most {1} fit. Send a smaller one; nothing was stored.", KitWords.Figure(form.Picture.Length / 1048576.0), RedrawnPhoto.MostBytes / 1048576));
        }

        if (!form.Looked)
        {
            typed.Refuse(nameof(form.Looked), "Look at the picture once more and say that nobody is in it. If somebody is, take another.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        switch (await RedrawnPhoto.OfAsync(form.Picture!, cancel))
        {
            case RedrawnPhoto.Refused(var why):
                refuse(nameof(form.Picture), why);
                return null;
            case RedrawnPhoto.Picture drawn:
                return await KeepAsync(user, item, form.Id, note, drawn, cancel);
            default:
                throw new InvalidOperationException("a picture is either drawn or refused");
        }
    }

    /// <summary>Empties a photo for good. That there was one, and who took it down, is kept.</summary>
    public async Task<Notice> TakeDownAsync(CurrentUser user, KitItem item, Guid photoId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var emptied = await db.KitPhotos.Where(p => p.Id == photoId && p.ItemId == item.Id && p.RemovedAt == null)
            .ExecuteUpdateAsync(
                set => set.SetProperty(p => p.Content, Array.Empty<byte>()).SetProperty(p => p.RemovedAt, now).SetProperty(p => p.RemovedBy, user.PersonId), cancel);
        if (emptied == 0)
        {
            return new Notice(true, "This photo is gone already.");
        }

        log.LogInformation("{Person} took down photo {Photo} of kit {Item}", user.PersonId, photoId, item.Id);
        return new Notice(true, "The photo is taken down. The picture is deleted, here and for everybody.");
    }

    private async Task<Notice> KeepAsync(CurrentUser user, KitItem item, Guid id, string? note, RedrawnPhoto.Picture drawn, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var kept = new Notice(true, say.Of("The photo is kept, {0} by {1} dots, without place and time of taking.", drawn.Width, drawn.Height));
        if (await db.KitPhotos.AnyAsync(p => p.Id == id && p.ItemId == item.Id, cancel))
        {
            return kept;
        }

        db.KitPhotos.Add(new KitPhoto
        {
            // An id that another piece's photo has is not ours: this one gets its own.
            Id = id == Guid.Empty || await db.KitPhotos.AnyAsync(p => p.Id == id, cancel) ? Guid.NewGuid() : id,
            ItemId = item.Id,
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
