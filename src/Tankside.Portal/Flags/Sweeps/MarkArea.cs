using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

public sealed class MarkForm
{
    /// <summary>What the area field says for the whole programme: an empty choice is one not made.</summary>
    public const string Everywhere = "*";

    public const string TimeFormat = "yyyy-MM-dd'T'HH:mm";

    /// <summary>Made when the page is shown, so that the form sent twice is one mark.</summary>
    public Guid Id { get; set; }

    public string? Area { get; set; }

    public string? Reason { get; set; }

    /// <summary>Local time of the programme; empty for now.</summary>
    public string? Since { get; set; }

    public string? Until { get; set; }

    public string? Note { get; set; }
}

/// <summary>Marks an area: one act over every school in it. Its tanks are judged again at once.</summary>
public sealed class MarkArea(IDbContextFactory<HatcheryDb> databases, TimeProvider time, NewFacts newFacts, RoundFeed feed)
{
    public const int LongestNote = 300;

    /// <summary>Further back lies a slip in the date.</summary>
    private static readonly TimeSpan LongestAgo = TimeSpan.FromDays(14);

    /// <summary>The mark's id; null when it was refused and a field says why.</summary>
    public async Task<Guid?> HandleAsync(CurrentUser user, MarkForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.AreaSweeps.AnyAsync(s => s.Id == form.Id && s.ProgrammeId == user.ProgrammeId, cancel))
        {
            return form.Id;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        if (await ReadAsync(db, user, form, now, refuse, cancel) is not { } sweep)
        {
            return null;
        }

        db.AreaSweeps.Add(sweep);
        db.HaveJudged(await db.OpenTanksOf(db.SchoolsUnder(sweep)).Select(t => t.Id).ToListAsync(cancel), now);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            return sweep.Id; // The same form was sent twice at once; the other one is saved.
        }

        newFacts.Tell();
        feed.Tell([user.ProgrammeId]);
        return sweep.Id;
    }

    private static async Task<AreaSweep?> ReadAsync(
        HatcheryDb db, CurrentUser user, MarkForm form, DateTime now, Action<string, string> refuse, CancellationToken cancel)
    {
        var good = true;
        var clock = ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel));
        var area = form.Area == MarkForm.Everywhere ? "" : form.Area ?? "";
        Refuse(form.Area != MarkForm.Everywhere && (area.Length == 0 || !await db.Schools.AnyAsync(s => s.ProgrammeId == user.ProgrammeId && s.Area == area, cancel)),
            nameof(form.Area), "Choose an area, or the whole programme.");
        Refuse(!Enum.TryParse<SweepReason>(form.Reason, out var reason) || !Enum.IsDefined(reason), nameof(form.Reason), "Choose what happened.");
        var since = Read(nameof(form.Since), form.Since) ?? now;
        Refuse(ObservationRules.AcceptedTime(since, now) is null, nameof(form.Since), "This time is still to come. Leave it empty for now.");
        Refuse(since < now - LongestAgo, nameof(form.Since), $"That is more than {LongestAgo.TotalDays:0} days ago. Please look at the date.");
        since = since > now ? now : since;
        var until = Read(nameof(form.Until), form.Until);
        Refuse(until <= since, nameof(form.Until), "The end is not after the beginning.");
        var note = string.IsNullOrWhiteSpace(form.Note) ? null : form.Note.Trim();
        Refuse(note?.Length > LongestNote, nameof(form.Note), $"At most {LongestNote} letters, please.");
        if (good && await db.AreaSweeps.AsNoTracking().FirstOrDefaultAsync(
            s => s.ProgrammeId == user.ProgrammeId && s.Area == area && s.Reason == reason && s.EndedAt == null, cancel) is { } same)
        {
            Refuse(true, nameof(form.Area), $"This is marked already: {SweepWords.Of(reason)} since {clock.Local(same.From).ToString("ddd d MMM HH:mm", CultureInfo.InvariantCulture)}. End that mark first.");
        }

        return !good ? null : new AreaSweep
        {
            Id = form.Id,
            ProgrammeId = user.ProgrammeId,
            Area = area,
            Reason = reason,
            From = since,
            Until = until,
            Note = note,
            MarkedBy = user.PersonId,
            MarkedAt = now,
        };

        DateTime? Read(string field, string? typed)
        {
            if (string.IsNullOrWhiteSpace(typed))
            {
                return null;
            }

            string[] formats = [MarkForm.TimeFormat, MarkForm.TimeFormat + ":ss", "yyyy-MM-dd HH:mm"];
            if (DateTime.TryParseExact(typed.Trim(), formats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) && local.Year is > 2000 and < 2100)
            {
                return clock.Utc(DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local));
            }

            Refuse(true, field, "Give day and time, such as 2027-02-03 17:30, or leave it empty.");
            return null;
        }

        void Refuse(bool when, string field, string why)
        {
            if (when)
            {
                good = false;
                refuse(field, why);
            }
        }
    }
}
