using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>An earlier import in the list.</summary>
public sealed record ListedPlaceImport(PlaceImport Import, string SentBy);

/// <summary>One import for its page.</summary>
/// <param name="Plan">Null while a question about its columns is open, and once it is stored.</param>
/// <param name="Lines">What it added and changed, once it is stored.</param>
public sealed record ShownPlaceImport(
    PlaceImport Import, IPlaceSheet Kind, PlaceColumns Columns, IReadOnlyList<SheetRow> Rows, PlacePlan? Plan, IReadOnlyList<PlaceImportLine> Lines,
    IReadOnlyDictionary<Guid, string> Names, ProgrammeClock Clock)
{
    public string Person(Guid? id) => Names.GetValueOrDefault(id ?? Guid.Empty, "somebody");
}

/// <summary>Loads imports for their pages; what the asker may not see is not there.</summary>
public sealed class ShownPlaces(IDbContextFactory<HatcheryDb> databases, PlanPlaces plans)
{
    public const int MostListed = 200;

    public IReadOnlyList<IPlaceSheet> KindsFor(CurrentUser user) => [.. plans.Kinds.Where(k => k.Holds != PlaceSheet.People || user.Is(Role.ProgrammeLead))];

    public async Task<(IReadOnlyList<ListedPlaceImport> Imports, ProgrammeClock Clock)> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var imports = await (
            from import in db.PlaceImportsOf(user).AsNoTracking()
            join person in db.Users on import.SentBy equals person.Id into people
            from person in people.DefaultIfEmpty()
            orderby import.SentAt descending
            select new { import, person.Name }).Take(MostListed).ToListAsync(cancel);
        return ([.. imports.Select(i => new ListedPlaceImport(i.import, i.Name ?? "somebody"))], await ClockAsync(db, user, cancel));
    }

    public async Task<ShownPlaceImport?> LoadAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.PlaceImportsOf(user).AsNoTracking().SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } import)
        {
            return null;
        }

        var (kind, columns) = (plans.KindOf(import), PlaceColumns.From(import.Columns));
        var rows = await PlanPlaces.RowsAsync(db, id, cancel);
        var plan = import.State == PlaceImportState.Previewed && columns.QuestionsFor(kind).Count == 0
            ? await plans.OfAsync(db, user, import, rows, cancel)
            : null;
        var lines = await db.PlaceImportLines.AsNoTracking().Where(l => l.ImportId == id).OrderBy(l => l.Number).ToListAsync(cancel);
        var names = await db.Users.Where(p => p.Id == import.SentBy || p.Id == import.StoredBy || p.Id == import.UndoneBy).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return new ShownPlaceImport(import, kind, columns, rows, plan, lines, names, await ClockAsync(db, user, cancel));
    }

    private static async Task<ProgrammeClock> ClockAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel));
}
