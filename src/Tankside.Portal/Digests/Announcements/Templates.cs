using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

public sealed class TemplateForm
{
    public string? Name { get; set; }

    public string? SubjectEn { get; set; }

    public string? TextEn { get; set; }

    public string? SubjectEs { get; set; }

    public string? TextEs { get; set; }

    /// <summary>As it stood when the page was shown; 0 for one that nobody has kept yet.</summary>
    public int Version { get; set; }
}

/// <summary>A text to begin with, as the programme has it.</summary>
/// <param name="Key">The shipped key, or the id of one of the programme's own.</param>
/// <param name="Own">The programme's row; null for a shipped text that nobody has changed.</param>
public sealed record Template(string Key, string Name, string About, Wording Wording, OwnTemplate? Own)
{
    public bool IsShipped => ShippedTemplates.Find(Key) is not null;
}

/// <summary>The texts to begin an announcement with: those shipped, as changed by the programme, and its own.</summary>
public sealed class Templates(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public const string New = "new";

    public async Task<IReadOnlyList<Template>> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var own = await db.OwnTemplates.AsNoTracking().Where(t => t.ProgrammeId == user.ProgrammeId).OrderBy(t => t.Name).ToListAsync(cancel);
        return
        [
            .. ShippedTemplates.All.Select(s => own.Find(t => t.Shipped == s.Key) is { } changed
                ? new Template(s.Key, changed.Name, s.About, Of(changed), changed)
                : new Template(s.Key, s.Name, s.About, s.Wording, null)),
            .. own.Where(t => ShippedTemplates.Find(t.Shipped) is null).Select(t => new Template(t.Id.ToString(), t.Name, "", Of(t), t)),
        ];
    }

    public async Task<Template?> FindAsync(CurrentUser user, string? key, CancellationToken cancel) => key is null ? null
        : key == New ? new Template(New, "", "", new Wording("", "", "", ""), null)
        : (await ListAsync(user, cancel)).FirstOrDefault(t => t.Key == key);

    /// <summary>What to tell; null when something was refused and a field says why.</summary>
    public Task<Notice?> SaveAsync(CurrentUser user, string key, TemplateForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TrySaveAsync(user, key, form, refuse, cancel), refuse);

    /// <summary>Gives a shipped text back as it is shipped, or takes one of the programme's own away.</summary>
    public async Task<Notice> RemoveAsync(CurrentUser user, string key, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await RowAsync(db, user, key, cancel) is not { } row)
        {
            return new Notice(true, "It stands as it is shipped already.");
        }

        db.OwnTemplates.Remove(row);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "Somebody else changed it at the same moment. Nothing was changed; this is how it stands now.");
        }

        return new Notice(true, row.Shipped is null ? $"“{row.Name}” is taken away." : "The text is the shipped one again.");
    }

    private async Task<Notice?> TrySaveAsync(CurrentUser user, string key, TemplateForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var wording = WordingRules.Read(form.SubjectEn, form.TextEn, form.SubjectEs, form.TextEs, refuse);
        var name = form.Name?.Trim() ?? "";
        await using var db = await databases.CreateDbContextAsync(cancel);
        var row = await RowAsync(db, user, key, cancel);
        var badName = name.Length is 0 or > OwnTemplate.LongestName ? $"Give it a name, {OwnTemplate.LongestName} letters at most."
            : await db.OwnTemplates.AnyAsync(t => t.ProgrammeId == user.ProgrammeId && t.Name == name && (row == null || t.Id != row.Id), cancel) ? "Another text has this name."
            : (row?.Version ?? 0) != form.Version && row is not null ? "Somebody else changed this text meanwhile. Open it again in another window and compare; yours is still here."
            : null;
        if (badName is not null)
        {
            refuse(nameof(form.Name), badName);
        }

        if (wording is null || badName is not null)
        {
            return null;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        if (row is null)
        {
            db.OwnTemplates.Add(row = new OwnTemplate
            {
                Id = Guid.CreateVersion7(new DateTimeOffset(now)),
                ProgrammeId = user.ProgrammeId,
                Shipped = ShippedTemplates.Find(key)?.Key,
                Name = name,
                SubjectEn = "",
                TextEn = "",
                SubjectEs = "",
                TextEs = "",
            });
        }

        (row.Name, row.SubjectEn, row.TextEn, row.SubjectEs, row.TextEs) = (name, wording.SubjectEn, wording.TextEn, wording.SubjectEs, wording.TextEs);
        (row.ChangedAt, row.ChangedBy) = (now, user.PersonId);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"“{name}” is kept.");
    }

    private static async Task<OwnTemplate?> RowAsync(HatcheryDb db, CurrentUser user, string key, CancellationToken cancel)
    {
        var mine = db.OwnTemplates.Where(t => t.ProgrammeId == user.ProgrammeId);
        return Guid.TryParse(key, out var id)
            ? await mine.SingleOrDefaultAsync(t => t.Id == id, cancel)
            : await mine.SingleOrDefaultAsync(t => t.Shipped == key, cancel);
    }

    private static Wording Of(OwnTemplate t) => new(t.SubjectEn, t.TextEn, t.SubjectEs, t.TextEs);
}
