using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Which tanks of the register to show.</summary>
public enum TankFilter
{
    All,
    Flagged,
    Silent,
}

/// <summary>What is asked of the register.</summary>
/// <param name="Search">Part of a tank's code, or of its school's or room's name; null for all.</param>
/// <param name="Page">From 1.</param>
public sealed record RegisterQuestion(string? Search, TankFilter Filter, int Page);

/// <summary>One page of the register, and how all the asker's tanks stand.</summary>
/// <param name="Matches">Tanks that match the question, on all its pages.</param>
/// <param name="NotKnown">How long nobody knew, of the tanks shown.</param>
/// <param name="Page">The page shown; the last one when a later one was asked for.</param>
public sealed record RegisterPage(
    DateTime At, TankStandings Standings, int Matches, int Page, int Pages, IReadOnlyList<TankGlance> Tanks, NotKnownHours NotKnown,
    TemperatureUnit Unit);

/// <summary>Every tank stands in exactly one of the four.</summary>
/// <param name="Waiting">Open, and no eggs have come yet.</param>
public sealed record TankStandings(int Well, int Flagged, int Waiting, int Closed)
{
    public int All => Well + Flagged + Waiting + Closed;

    /// <summary>"48 tanks: 37 well, 9 flagged, 2 closed."</summary>
    public string Sentence => In(Say.InEnglish);

    public string In(Say say)
    {
        string[] parts =
        [
            .. Some(Well, say.Count(Well, "{0} well|one tank", "{0} well")), .. Some(Flagged, say.Count(Flagged, "{0} flagged|one tank", "{0} flagged")),
            .. Some(Waiting, say.Of("{0} waiting for eggs", Waiting)), .. Some(Closed, say.Count(Closed, "{0} closed|one tank", "{0} closed")),
        ];
        return All == 0 ? say["No tanks yet."] : say.Of("{0}: {1}.", say.Count(All, "{0} tank", "{0} tanks"), string.Join(", ", parts));
    }

    private static string[] Some(int count, string said) => count > 0 ? [said] : [];
}

/// <summary>The register of the tanks that somebody may see: a fixed number of queries, whatever the programme's size.</summary>
public sealed class TankRegister(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public const int PageSize = 50;

    public async Task<RegisterPage> LoadAsync(CurrentUser user, RegisterQuestion question, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var unit = await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.ScreenUnit).SingleAsync(cancel);
        var all = await LinesAsync(db, user, cancel);
        var standings = Count(all);
        var matching = all.Where(l => Matches(l, question)).OrderBy(l => l.Code, StringComparer.Ordinal).ToList();
        var pages = Math.Max(1, (matching.Count + PageSize - 1) / PageSize);
        var page = Math.Clamp(question.Page, 1, pages);
        var shown = matching.Skip((page - 1) * PageSize).Take(PageSize).Select(l => l.Id).ToList();
        return new RegisterPage(
            now, standings, matching.Count, page, pages, await TankGlances.LoadAsync(db, shown, now, cancel),
            await NotKnownHours.LoadAsync(db, shown, now, cancel), unit);
    }

    private sealed record Line(Guid Id, string Code, string School, string Room, bool Closed, bool HasEggs, bool Flagged, bool Silent);

    /// <summary>One thin line a tank. Searched here, because the two databases disagree about capitals outside ASCII.</summary>
    private static Task<List<Line>> LinesAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) => (
        from tank in db.TanksOf(user)
        join room in db.Classrooms on tank.ClassroomId equals room.Id
        join school in db.Schools on room.SchoolId equals school.Id
        select new Line(
            tank.Id, tank.Code, school.Name, room.Name, tank.ClosedAt != null,
            db.Receipts.Any(r => r.TankId == tank.Id),
            db.Flags.Any(f => f.TankId == tank.Id && f.State == FlagState.Open),
            db.Flags.Any(f => f.TankId == tank.Id && f.State == FlagState.Open && f.Kind == FlagKind.Silent))).ToListAsync(cancel);

    private static TankStandings Count(List<Line> all) => new(
        Well: all.Count(l => !l.Flagged && !l.Closed && l.HasEggs),
        Flagged: all.Count(l => l.Flagged),
        Waiting: all.Count(l => !l.Flagged && !l.Closed && !l.HasEggs),
        Closed: all.Count(l => !l.Flagged && l.Closed));

    private static bool Matches(Line line, RegisterQuestion question)
    {
        var inFilter = question.Filter switch
        {
            TankFilter.All => true,
            TankFilter.Flagged => line.Flagged,
            TankFilter.Silent => line.Silent,
        };
        return inFilter && (string.IsNullOrWhiteSpace(question.Search)
            || new[] { line.Code, line.School, line.Room }.Any(name => name.Contains(question.Search.Trim(), StringComparison.OrdinalIgnoreCase)));
    }
}
