using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>
/// Keeps an announcement and its letters in one transaction, so that all of them go or none. The announcement's id comes with the form: sent
/// twice, by a second press or by another portal, it is one.
/// </summary>
public sealed class WriteAnnouncement(IDbContextFactory<HatcheryDb> databases, Outbox outbox, TimeProvider time)
{
    /// <summary>What the key of every such letter begins with.</summary>
    public const string Kind = "announcement ";

    public static string KeyOf(Guid announcement) => $"{Kind}{announcement:N} ";

    public static string KeyOf(Guid announcement, Guid person) => $"{KeyOf(announcement)}{person:N}";

    /// <summary>False when it could not be kept, because its id stands for something else.</summary>
    public async Task<bool> HandleAsync(CurrentUser user, Guid id, AnnouncementLook look, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await IsThereAsync(db, user, id, cancel))
        {
            return true;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var soonest = now + Announcement.Grace;
        var goes = look.At is { } at && at > soonest ? at : soonest;
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        try
        {
            // The announcement first and by itself: whoever comes second waits at it and finds it written.
            db.Announcements.Add(New(user, id, look, now, goes));
            await db.SaveChangesAsync(cancel);
            AddLetters(db, user, id, look, goes);
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            await transaction.RollbackAsync(cancel);
            await using var after = await databases.CreateDbContextAsync(cancel);
            return await IsThereAsync(after, user, id, cancel);
        }

        outbox.Wake();
        return true;
    }

    private static Task<bool> IsThereAsync(HatcheryDb db, CurrentUser user, Guid id, CancellationToken cancel) =>
        db.Announcements.AnyAsync(a => a.Id == id && a.ProgrammeId == user.ProgrammeId, cancel);

    private static Announcement New(CurrentUser user, Guid id, AnnouncementLook look, DateTime now, DateTime goes) => new()
    {
        Id = id,
        ProgrammeId = user.ProgrammeId,
        Audience = look.Chosen.Audience,
        For = look.Chosen.Words,
        SubjectEn = look.Wording.SubjectEn,
        TextEn = look.Wording.TextEn,
        SubjectEs = look.Wording.SubjectEs,
        TextEs = look.Wording.TextEs,
        WrittenAt = now,
        WrittenBy = user.PersonId,
        GoesAt = goes,
    };

    private void AddLetters(HatcheryDb db, CurrentUser user, Guid id, AnnouncementLook look, DateTime goes)
    {
        foreach (var member in look.Chosen.Members.OrderBy(m => m.Person.Id))
        {
            db.AnnouncementReaders.Add(new AnnouncementReader { AnnouncementId = id, PersonId = member.Person.Id, Without = member.Without });
            if (member.Without is null)
            {
                var (subject, text) = look.Wording.For(look.Facts[member.Person.Id], member.Person.Language, look.Programme.Name);
                outbox.Add(db, new NewLetter(KeyOf(id, member.Person.Id), user.ProgrammeId, member.Person.Id, member.Person.Email!, subject, text, goes));
            }
        }
    }
}
