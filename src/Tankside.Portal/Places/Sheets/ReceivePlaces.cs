using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// Takes a sheet in and guesses how it is to be read. Only the rows of the one sheet that is read are kept, until they are stored or thrown
/// away; never one with children's data, and no telephone numbers.
/// </summary>
public sealed class ReceivePlaces(IDbContextFactory<HatcheryDb> databases, IEnumerable<IPlaceSheet> kinds, TimeProvider time)
{
    public const int MostBytes = 5 * 1024 * 1024, MostRows = 5_000;

    /// <summary>Null when the file was not taken; <paramref name="refuse"/> has been told why.</summary>
    /// <param name="id">The form's own id, so that sending it twice is sending it once.</param>
    public async Task<Guid?> HandleAsync(
        CurrentUser user, Guid id, string fileName, byte[] content, PlaceSheet? said, Action<string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.PlaceImportsOf(user).AnyAsync(i => i.Id == id, cancel))
        {
            return id;
        }

        if (Read(user, content, said, why => refuse($"{why} Nothing was stored.")) is not { } sheet)
        {
            return null;
        }

        db.Add(new PlaceImport
        {
            Id = id,
            ProgrammeId = user.ProgrammeId,
            FileName = SheetTexts.FileName(fileName),
            Holds = sheet.Kind.Holds,
            SentBy = user.PersonId,
            SentAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            Columns = sheet.Columns.ToJson(),
        });
        db.Add(new PlaceImportSheet { ImportId = id, Content = JsonSerializer.SerializeToUtf8Bytes(sheet.Rows) });
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

    private GuessedSheet? Read(CurrentUser user, byte[] content, PlaceSheet? said, Action<string> refuse)
    {
        try
        {
            var file = SheetFile.Open(content);
            if (file.Rows().Where(r => !r.IsBlank).Take(MostRows + 2).Count() > MostRows + 1)
            {
                refuse($"There are more than {MostRows:#,0} rows in this sheet. Split it and send the parts.");
                return null;
            }

            return WhyNot(user, file, GuessPlaces.Of(file, [.. kinds], kinds.SingleOrDefault(k => k.Holds == said)), refuse);
        }
        catch (NoSheetException e)
        {
            refuse(e.Message);
            return null;
        }
    }

    private static GuessedSheet? WhyNot(CurrentUser user, SheetFile file, GuessedSheet sheet, Action<string> refuse)
    {
        var first = file.Rows().FirstOrDefault(r => !r.IsBlank)?.Cells ?? [];
        if (sheet.Columns.Titles.Concat(first).FirstOrDefault(t => t.Length <= 80 && ChildWords.IsOfChildren(t)) is { } child)
        {
            refuse($"The column “{SheetTexts.Shortened(child.Trim())}” looks like children’s names, ages or grades. {ChildWords.Never} Take that column out and send the sheet again.");
            return null;
        }

        if (sheet.Rows.Count == 0 || sheet.Columns.Meanings.All(m => m.Length == 0))
        {
            refuse(sheet.Rows.Count == 0
                ? "There is no row below the headings in this sheet."
                : "No heading of this sheet is known here. Expected: a row of headings such as those of the example sheets below.");
            return null;
        }

        if (sheet.Kind.Holds == PlaceSheet.People && !user.Is(Role.ProgrammeLead))
        {
            refuse("This is a sheet of people. Inviting people is for the programme lead; ask yours to bring it in.");
            return null;
        }

        return sheet with { Rows = [.. sheet.Rows.Select(r => r with { Cells = [.. r.Cells.Select((c, column) => Kept(sheet.Columns, column) ? c : "")] })] };
    }

    private static bool Kept(PlaceColumns columns, int column) => column >= columns.Titles.Count || !ChildWords.IsOfTelephones(columns.Titles[column]);
}

/// <summary>The imports that somebody may see: those of the programme; of people only the lead, who invites them.</summary>
public static class VisiblePlaceImports
{
    public static IQueryable<PlaceImport> PlaceImportsOf(this HatcheryDb db, CurrentUser user)
    {
        var own = db.PlaceImports.Where(i => i.ProgrammeId == user.ProgrammeId);
        return user.Is(Role.ProgrammeLead) ? own : own.Where(i => i.Holds != PlaceSheet.People);
    }
}
