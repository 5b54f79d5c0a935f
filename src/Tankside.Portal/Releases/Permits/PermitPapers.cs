using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

public sealed class PermitPaperForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one paper.</summary>
    public Guid Id { get; set; }

    public IFormFile? File { get; set; }

    public string? Note { get; set; }
}

/// <summary>A kept paper without its content.</summary>
public sealed record ListedPaper(Guid Id, DateTime ReceivedAt, PaperKind Kind, int Pages, string? Note, string SentBy);

/// <summary>The agency's own paper beside what was copied from it, for those who run the round.</summary>
public sealed class PermitPapers(IDbContextFactory<HatcheryDb> databases, TimeProvider time, ILogger<PermitPapers> log)
{
    /// <summary>More than any permit has, so that nobody fills the disk by mistake (no source).</summary>
    public const int Most = 20;

    public async Task<IReadOnlyList<ListedPaper>> LoadAsync(CurrentUser user, Guid permitId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from paper in Kept(db, user.ProgrammeId).Where(p => p.PermitId == permitId)
            join person in db.Users on paper.SentBy equals person.Id
            orderby paper.ReceivedAt, paper.Id
            select new ListedPaper(paper.Id, paper.ReceivedAt, paper.Kind, paper.Pages, paper.Note, person.Name)).ToListAsync(cancel);
    }

    internal static async Task<IResult> GetAsync(Guid permitId, Guid id, HttpContext context, IDbContextFactory<HatcheryDb> databases, CancellationToken cancel)
    {
        var user = CurrentUser.From(context.User)!;
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await Kept(db, user.ProgrammeId).Where(p => p.PermitId == permitId && p.Id == id).Select(p => new { p.Kind, p.Content }).SingleOrDefaultAsync(cancel) is not { } paper)
        {
            return TypedResults.NotFound();
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        // As a download: it never runs in the portal's own page.
        return paper.Kind == PaperKind.Pdf
            ? TypedResults.Bytes(paper.Content, "application/pdf", "permit.pdf")
            : TypedResults.Bytes(paper.Content, "image/jpeg");
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public async Task<Notice?> AddAsync(CurrentUser user, Guid permitId, PermitPaperForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (form.File is null or { Length: 0 })
        {
            typed.Refuse(nameof(form.File), "Choose a file: a PDF, or a JPEG, PNG or WebP picture of the paper.");
        }
        else if (form.File.Length > RewrittenPdf.MostBytes)
        {
            typed.Refuse(nameof(form.File), $"This file has {Figures.Of((int)(form.File.Length / 1048576))} MB; at most {RewrittenPdf.MostBytes / 1048576} fit. Send a smaller one; nothing was stored.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        var (kind, pages, content, why) = await RewrittenAsync(form.File!, cancel);
        if (content is null)
        {
            refuse(nameof(form.File), why!);
            return null;
        }

        var paper = new PermitPaper
        {
            Id = form.Id,
            PermitId = permitId,
            ReceivedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            SentBy = user.PersonId,
            Kind = kind,
            Note = note,
            Pages = pages,
            Content = content,
        };
        return await InTurn.SaveAsync(() => TryKeepAsync(user, paper, refuse, cancel), refuse);
    }

    /// <summary>Empties a paper for good. That there was one, and who took it away, is kept.</summary>
    public async Task<Notice> TakeAwayAsync(CurrentUser user, Guid permitId, Guid paperId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var emptied = await Kept(db, user.ProgrammeId).Where(p => p.Id == paperId && p.PermitId == permitId).ExecuteUpdateAsync(
            set => set.SetProperty(p => p.Content, Array.Empty<byte>()).SetProperty(p => p.RemovedAt, now).SetProperty(p => p.RemovedBy, user.PersonId), cancel);
        if (emptied == 0)
        {
            return new Notice(true, "This paper is gone already.");
        }

        log.LogInformation("{Person} took away paper {Paper} of permit {Permit}", user.PersonId, paperId, permitId);
        return new Notice(true, "The paper is taken away. The file is deleted, here and for everybody.");
    }

    private async Task<Notice?> TryKeepAsync(CurrentUser user, PermitPaper paper, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var kept = new Notice(true, paper.Kind == PaperKind.Pdf ? $"The paper is kept, {Figures.Of(paper.Pages, "page", "pages")}." : "The picture of the paper is kept.");
        if (await db.PermitPapers.AnyAsync(p => p.Id == paper.Id, cancel))
        {
            return kept;
        }

        if (!await db.Permits.AnyAsync(p => p.Id == paper.PermitId && p.ProgrammeId == user.ProgrammeId, cancel))
        {
            refuse("", "There is no such permit any more. Nothing was stored.");
            return null;
        }

        if (await Kept(db, user.ProgrammeId).CountAsync(p => p.PermitId == paper.PermitId, cancel) >= Most)
        {
            refuse(nameof(PermitPaperForm.File), $"This permit has {Most} papers already. Take one away first; nothing was stored.");
            return null;
        }

        db.PermitPapers.Add(paper);
        await db.SaveChangesAsync(cancel);
        return kept;
    }

    private static IQueryable<PermitPaper> Kept(HatcheryDb db, Guid programmeId) =>
        db.PermitPapers.Where(p => p.RemovedAt == null && db.Permits.Any(m => m.Id == p.PermitId && m.ProgrammeId == programmeId));

    private static async Task<(PaperKind Kind, int Pages, byte[]? Content, string? Why)> RewrittenAsync(IFormFile file, CancellationToken cancel)
    {
        if (await BeginsLikePdfAsync(file, cancel))
        {
            return await RewrittenApart.OfAsync(file, cancel) switch
            {
                RewrittenPdf.Sheets sheets => (PaperKind.Pdf, sheets.Pages, sheets.Pdf, null),
                RewrittenPdf.Refused(var why) => (PaperKind.Pdf, 0, null, why),
                _ => throw new InvalidOperationException("a PDF is either written anew or refused"),
            };
        }

        return await RedrawnPhoto.OfAsync(file, cancel) switch
        {
            RedrawnPhoto.Picture picture => (PaperKind.Picture, 1, picture.Jpeg, null),
            RedrawnPhoto.Refused => (PaperKind.Picture, 0, null, "This is not a paper that we can read. We expected a PDF, or a JPEG, PNG or WebP picture; nothing was stored."),
            _ => throw new InvalidOperationException("a picture is either drawn or refused"),
        };
    }

    private static async Task<bool> BeginsLikePdfAsync(IFormFile file, CancellationToken cancel)
    {
        await using var stream = file.OpenReadStream();
        var head = new byte[5];
        return await stream.ReadAtLeastAsync(head, head.Length, throwOnEndOfStream: false, cancel) == head.Length && head.AsSpan().SequenceEqual("%PDF-"u8);
    }
}
