using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>Takes a file in, guesses how it is to be read, and keeps both. No reading is stored yet.</summary>
public sealed class ReceiveSheet(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    /// <summary>Null when the file was not taken; <paramref name="refuse"/> has been told why.</summary>
    /// <param name="id">The form's own id, so that sending it twice is sending it once.</param>
    public async Task<Guid?> HandleAsync(
        CurrentUser user, Guid id, string fileName, byte[] content, Action<string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ImportsOf(user).AnyAsync(i => i.Id == id, cancel))
        {
            return id;
        }

        var tanks = await TankNames.OfAsync(db, user, cancel);
        var zone = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        if (Guess(content, tanks, ProgrammeClock.Of(zone), refuse) is not { } columns)
        {
            return null;
        }

        db.Add(new ReadingImport
        {
            Id = id,
            ProgrammeId = user.ProgrammeId,
            FileName = SheetTexts.FileName(fileName),
            SentBy = user.PersonId,
            SentAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            Columns = columns.ToJson(),
        });
        db.Add(new ImportedSheet { ImportId = id, Content = content });
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            // The same form came twice at the same time; the other one has stored it.
        }

        return id;
    }

    private SheetColumns? Guess(byte[] content, TankNames tanks, ProgrammeClock clock, Action<string> refuse)
    {
        try
        {
            var file = SheetFile.Open(content);
            if (file.Rows().Take(SheetLimits.MostLines + 1).Count() > SheetLimits.MostLines || file.Rows().Count(r => !r.IsBlank) > SheetLimits.MostRows)
            {
                refuse(say.Of("There are more than {0:#,0} rows in this sheet. Split it and send the parts. Nothing was stored.", SheetLimits.MostRows));
                return null;
            }

            var columns = GuessColumns.Of(file, tanks, clock.Day(time.GetUtcNow().UtcDateTime));
            if (columns.Meanings.Count == 0)
            {
                refuse(say["There is nothing in this sheet. Nothing was stored."]);
                return null;
            }

            var titles = SheetHeader.Find(file.Rows(), HeaderWords.Reader).Titles;
            if (!columns.Has(ColumnMeaning.Tank) && titles.Count(t => tanks.Find(t) is not null) > 1)
            {
                refuse(say["This sheet has a column for each tank. Please give each reading a row of its own, with the tank’s code in a column “Tank”. Nothing was stored."]);
                return null;
            }

            return columns;
        }
        catch (NoSheetException e)
        {
            refuse(say.Of("{0} Nothing was stored.", say.Told(e.Message)));
            return null;
        }
    }
}
