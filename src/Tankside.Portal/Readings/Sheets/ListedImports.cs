using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>An earlier import in the list.</summary>
public sealed record ListedImport(ReadingImport Import, string SentBy);

/// <summary>The imports of a programme, the newest first.</summary>
public sealed class ListedImports(IDbContextFactory<HatcheryDb> databases, Say say)
{
    public const int Most = 200;

    public async Task<(IReadOnlyList<ListedImport> Imports, ProgrammeClock Clock)> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var zone = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        var imports = await (
            from import in db.ImportsOf(user).AsNoTracking()
            join person in db.Users on import.SentBy equals person.Id into people
            from person in people.DefaultIfEmpty()
            orderby import.SentAt descending
            select new { import, person.Name }).Take(Most).ToListAsync(cancel);
        return ([.. imports.Select(i => new ListedImport(i.import, i.Name ?? say["somebody"]))], ProgrammeClock.Of(zone));
    }
}
