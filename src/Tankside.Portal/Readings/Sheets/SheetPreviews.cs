using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>What the page shows of a sheet's rows.</summary>
/// <param name="First">The first rows, whatever becomes of them.</param>
/// <param name="ToLookAt">Rows that are asked, refused or there already, in their order.</param>
/// <param name="Unlisted">How many more of those there are than are listed; the file has them all.</param>
public sealed record SheetPreview(RowTotals Totals, IReadOnlyList<JudgedRow> First, IReadOnlyList<JudgedRow> ToLookAt, int Unlisted);

/// <summary>
/// Judges sheets for the page. The last few are kept for a moment, so that turning the pages of a long list does not read the sheet again
/// each time; and one is judged at a time, so that no number of long sheets fills the machine.
/// </summary>
public sealed class SheetPreviews(TimeProvider time) : IDisposable
{
    public const int MostListed = 20_000;

    private const int FirstRows = 10, Kept = 6;

    private static readonly TimeSpan Fresh = TimeSpan.FromMinutes(2);

    private readonly SemaphoreSlim turn = new(1);
    private readonly List<(Key Of, DateTimeOffset At, SheetPreview Preview)> kept = [];

    public void Dispose() => turn.Dispose();

    public async Task<SheetPreview> OfAsync(SheetInHand sheet, JudgeRows judge, CancellationToken cancel)
    {
        var key = new Key(sheet.Import.Id, sheet.Import.State, sheet.Import.Version, sheet.Say.Language);
        await turn.WaitAsync(cancel);
        try
        {
            var now = time.GetUtcNow();
            kept.RemoveAll(k => now - k.At > Fresh);
            if (kept.FirstOrDefault(k => k.Of == key) is { Preview: { } ready })
            {
                return ready;
            }

            var preview = await ReadAsync(sheet, judge, cancel);
            kept.Add((key, now, preview));
            kept.RemoveRange(0, Math.Max(0, kept.Count - Kept));
            return preview;
        }
        finally
        {
            turn.Release();
        }
    }

    private static async Task<SheetPreview> ReadAsync(SheetInHand sheet, JudgeRows judge, CancellationToken cancel)
    {
        var (totals, unlisted) = (new RowTotals(), 0);
        var (first, toLookAt) = (new List<JudgedRow>(), new List<JudgedRow>());
        await foreach (var row in judge.ForeseeAsync(sheet, cancel))
        {
            totals = totals.Plus(row.Fate);
            if (first.Count < FirstRows && row.Fate != RowFate.Blank)
            {
                first.Add(row);
            }

            if (row.Fate is RowFate.Accepted or RowFate.Blank)
            {
                continue;
            }

            if (toLookAt.Count < MostListed)
            {
                toLookAt.Add(row);
            }
            else
            {
                unlisted++;
            }
        }

        return new SheetPreview(totals, first, toLookAt, unlisted);
    }

    private sealed record Key(Guid Import, ImportState State, int Version, string Language);
}

/// <summary>One import for its page.</summary>
/// <param name="Preview">Null while a question about its columns is open or its rows are being stored, and after it was taken back.</param>
public sealed record ShownImport(ReadingImport Import, string SentBy, string? UndoneBy, SheetInHand Sheet, SheetPreview? Preview, int Corrected);

/// <summary>Loads an import for its page; what the asker may not see is not there.</summary>
public sealed class ShowImport(IDbContextFactory<HatcheryDb> databases, SheetPreviews previews, JudgeRows judge, Say say)
{
    public async Task<ShownImport?> LoadAsync(Accounts.CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (!await db.ImportsOf(user).AnyAsync(i => i.Id == id, cancel) || await SheetInHand.LoadAsync(db, id, cancel) is not { } loaded)
        {
            return null;
        }

        var sheet = loaded with { Say = say };
        var plain = sheet.Import.State == ImportState.Done || (sheet.Import.State == ImportState.Previewed && sheet.Columns.Questions.Count == 0);
        var preview = plain ? await previews.OfAsync(sheet, judge, cancel) : null;
        var names = await db.Users.Where(p => p.Id == sheet.Import.SentBy || p.Id == sheet.Import.UndoneBy).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return new ShownImport(
            sheet.Import, names.GetValueOrDefault(sheet.Import.SentBy, say["somebody"]),
            sheet.Import.UndoneBy is { } by ? names.GetValueOrDefault(by, say["somebody"]) : null,
            sheet, preview, await db.Readings.CountAsync(r => r.ImportId == id && r.CorrectedBy != null, cancel));
    }
}
