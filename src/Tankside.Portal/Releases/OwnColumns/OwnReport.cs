using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;
using Tankside.Storage;

namespace Tankside.Portal.Releases.OwnColumns;

public sealed class ColumnsForm
{
    public string? Text { get; set; }

    /// <summary>Version as shown; 0 when there was no mapping yet.</summary>
    public int Version { get; set; }
}

/// <summary>Keeps a programme's mapping file, and writes its report: the season totals in the agency's own columns.</summary>
public sealed class OwnReport(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<ReportColumns?> FindAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ReportColumns.AsNoTracking().SingleOrDefaultAsync(c => c.ProgrammeId == programmeId, cancel);
    }

    public Task<Notice?> KeepAsync(CurrentUser user, ColumnsForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryKeepAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryKeepAsync(CurrentUser user, ColumnsForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var text = (form.Text ?? "").ReplaceLineEndings("\n").TrimEnd();
        var mapping = ColumnMapping.Read(text);
        foreach (var trouble in mapping.Troubles)
        {
            refuse(nameof(form.Text), $"Line {trouble.Line}: {trouble.Why}");
        }

        if (text.Length > ReportColumns.Longest)
        {
            refuse(nameof(form.Text), $"At most {Figures.Of(ReportColumns.Longest)} characters fit here; this has {Figures.Of(text.Length)}.");
        }

        if (mapping.Troubles.Count > 0 || text.Length > ReportColumns.Longest)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var kept = await db.ReportColumns.SingleOrDefaultAsync(c => c.ProgrammeId == user.ProgrammeId, cancel);
        if ((kept?.Version ?? 0) != form.Version && kept?.Text != text)
        {
            refuse("", "Somebody else changed the columns while you wrote. Nothing of yours is saved; open the page anew to see theirs, and keep your text.");
            return null;
        }

        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        if (kept is null)
        {
            db.ReportColumns.Add(new ReportColumns { ProgrammeId = user.ProgrammeId, Text = text, ChangedAt = now, ChangedBy = user.PersonId, Version = 1 });
        }
        else
        {
            (kept.Text, kept.ChangedAt, kept.ChangedBy) = (text, now, user.PersonId);
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Kept: your report has {Figures.Of(mapping.Columns.Count, "column", "columns")}.");
    }

    /// <summary>One row a tank in the mapping's columns, written like the totals' own CSV.</summary>
    public static byte[] Write(SeasonTotals totals, ColumnMapping mapping)
    {
        var text = new StringBuilder(TotalsCsv.Line(mapping.Columns.Select(c => (object?)c.Name))).Append("\r\n");
        foreach (var tank in totals.Tanks)
        {
            text.Append(TotalsCsv.Line(mapping.Columns.Select(c => c.Of(totals, tank)))).Append("\r\n");
        }

        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())];
    }
}
