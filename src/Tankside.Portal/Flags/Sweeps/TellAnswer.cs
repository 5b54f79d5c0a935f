using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

public sealed class TellForm
{
    public string? School { get; set; }

    public string? Answer { get; set; }

    public string? Note { get; set; }
}

/// <summary>Enters what a school told the coordinator by text or telephone. It overrides what was said before.</summary>
public sealed class TellAnswer(IDbContextFactory<HatcheryDb> databases, TimeProvider time, NewFacts newFacts, RoundFeed feed)
{
    /// <summary>What to tell; null when it was refused and a field says why.</summary>
    public async Task<Notice?> HandleAsync(CurrentUser user, Guid sweepId, TellForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var sweep = await db.AreaSweeps.AsNoTracking().SingleAsync(s => s.Id == sweepId && s.ProgrammeId == user.ProgrammeId, cancel);
        var chosen = Guid.TryParse(form.School, out var id) ? await db.SchoolsUnder(sweep).AsNoTracking().SingleOrDefaultAsync(s => s.Id == id, cancel) : null;
        var known = Enum.TryParse<SweepAnswer>(form.Answer, out var answer) && Enum.IsDefined(answer);
        var note = string.IsNullOrWhiteSpace(form.Note) ? null : form.Note.Trim();
        if (chosen is null)
        {
            refuse(nameof(form.School), "Choose a school of this area.");
        }

        if (!known)
        {
            refuse(nameof(form.Answer), "Choose what they said.");
        }

        if (note?.Length > TakeReply.LongestNote)
        {
            refuse(nameof(form.Note), $"At most {TakeReply.LongestNote} letters, please.");
        }

        if (chosen is null || !known || note?.Length > TakeReply.LongestNote)
        {
            return null;
        }

        await KeepAsync(db, sweep, chosen, answer, note, cancel);
        newFacts.Tell();
        feed.Tell([user.ProgrammeId]);
        return new Notice(true, $"Kept: {chosen.Name}, {SweepWords.Of(answer)}.");
    }

    private async Task KeepAsync(HatcheryDb db, AreaSweep sweep, School school, SweepAnswer answer, string? note, CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        db.SweepReplies.Add(new SweepReply
        {
            Id = Guid.CreateVersion7(new DateTimeOffset(now)),
            SweepId = sweep.Id,
            SchoolId = school.Id,
            SecretHash = Secrets.Hash(Secrets.New()), // No link opens what was told by voice.
            AskedAt = now,
            AnsweredAt = now,
            Answer = answer,
            Note = note,
        });
        db.HaveJudged(await db.OpenTanksOf(db.Schools.Where(s => s.Id == school.Id)).Select(t => t.Id).ToListAsync(cancel), now);
        await db.SaveChangesAsync(cancel);
    }
}
