using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>An import with everything that is needed to read its sheet.</summary>
public sealed record SheetInHand(ReadingImport Import, SheetColumns Columns, SheetFile File, SheetHeader Header, TankNames Tanks, ProgrammeClock Clock)
{
    /// <summary>The language in which its rows are judged: that of whoever looks at the page, English in a file.</summary>
    public Say Say { get; init; } = Say.InEnglish;

    /// <summary>Null when there is no such import, or its sheet is gone.</summary>
    /// <param name="columns">How to read it when not as the import says.</param>
    public static async Task<SheetInHand?> LoadAsync(HatcheryDb db, Guid id, CancellationToken cancel, SheetColumns? columns = null)
    {
        if (await db.ReadingImports.AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import
            || await db.ImportedSheets.AsNoTracking().Where(s => s.ImportId == id).Select(s => s.Content).SingleOrDefaultAsync(cancel) is not { } content)
        {
            return null;
        }

        var zone = await db.Programmes.Where(p => p.Id == import.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        var read = columns ?? SheetColumns.From(import.Columns);
        var file = SheetFile.Open(content, read.Leaf);
        return new SheetInHand(
            import, read, file, HeaderOf(file, read), await TankNames.OfAsync(db, await SenderAsync(db, import, cancel), cancel), ProgrammeClock.Of(zone));
    }

    /// <summary>The rows below the headings; where there are more than there may be, the last one says that it ends there.</summary>
    public IEnumerable<SheetRow> Rows()
    {
        var filled = 0;
        foreach (var row in File.Rows().SkipWhile(r => r.Number <= Columns.HeaderRow))
        {
            if (!row.IsBlank && ++filled > SheetLimits.MostRows)
            {
                yield return row with { Trouble = Say.Of("This row and those below it are not read: a sheet may have {0:#,0} rows. Split it and send the parts.", SheetLimits.MostRows) };
                yield break;
            }

            yield return row;
        }
    }

    public RowReader NewReader() => new(Columns, Header.Titles, Tanks, Clock, Import.Id, Import.SentBy, Say);

    /// <summary>What the sender may enter readings for today, whoever works on the import now.</summary>
    private static async Task<CurrentUser?> SenderAsync(HatcheryDb db, ReadingImport import, CancellationToken cancel) =>
        await db.Memberships.AsNoTracking().Where(m => m.PersonId == import.SentBy && m.ProgrammeId == import.ProgrammeId).OrderBy(m => m.Id)
            .FirstOrDefaultAsync(cancel) is { } member
            ? new CurrentUser(member.PersonId, member.ProgrammeId, member.Role, member.SchoolId)
            : null;

    private static SheetHeader HeaderOf(SheetFile file, SheetColumns columns)
    {
        var found = SheetHeader.Find(file.Rows(), HeaderWords.Reader);
        return found.LastRow == columns.HeaderRow ? found : found with { LastRow = columns.HeaderRow };
    }
}

/// <summary>The imports that somebody may see: their own, and for those who work the round all of their programme.</summary>
public static class VisibleImports
{
    public static IQueryable<ReadingImport> ImportsOf(this HatcheryDb db, CurrentUser user)
    {
        var own = db.ReadingImports.Where(i => i.ProgrammeId == user.ProgrammeId);
        return user.Is(Role.Coordinator, Role.ProgrammeLead) ? own : own.Where(i => i.SentBy == user.PersonId);
    }
}
