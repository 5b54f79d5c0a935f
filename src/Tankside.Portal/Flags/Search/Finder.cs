using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Kit;
using Tankside.Portal.Places;
using Tankside.Portal.Readings;
using Tankside.Portal.Releases;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Search;

/// <summary>One thing found.</summary>
/// <param name="Address">Null where the asker may know of it and has no page of it.</param>
public sealed record FoundThing(string Name, string Told, string? Address);

/// <summary>What was found of one kind.</summary>
/// <param name="Things">The first of them.</param>
public sealed record FoundKind(string Kind, IReadOnlyList<FoundThing> Things, int Count);

/// <summary>
/// Finds tanks, schools, people, kit, lots, permits, sites and settings by words. Every word has to stand somewhere in what is found, in any
/// order and however it is accented. What the asker has no page of is not found.
/// </summary>
public sealed class Finder(IDbContextFactory<HatcheryDb> databases, Say say)
{
    /// <summary>More of a kind are counted, not listed.</summary>
    public const int Most = 20;

    public async Task<IReadOnlyList<FoundKind>> FindAsync(CurrentUser user, string typed, CancellationToken cancel)
    {
        var words = Headings.Plain(typed).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            return [];
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        List<FoundKind> found = [Those("Tanks", words, await TanksAsync(db, user, cancel))];
        if (user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            found.Add(Those("Schools", words, await SchoolsAsync(db, user, cancel)));
            found.Add(Those("People", words, await PeopleAsync(db, user, cancel)));
        }

        if (user.Is(Role.Coordinator, Role.ProgrammeLead, Role.KitHand))
        {
            found.Add(Those("Kit", words, await KitAsync(db, user, cancel)));
        }

        if (user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            found.Add(Those("Egg lots", words, await LotsAsync(db, user, cancel)));
            found.Add(Those("Permits", words, await PermitsAsync(db, user, cancel)));
            found.Add(Those("Release sites", words, await SitesAsync(db, user, cancel)));
            found.Add(Those("Settings", words, Numbers.NumberWords.Groups.SelectMany(g => g.Numbers).Select(n => new FoundThing(n.Name, n.Changes, $"/settings/{n.Key}"))));
        }

        return [.. found.Where(f => f.Count > 0)];
    }

    private static FoundKind Those(string kind, string[] words, IEnumerable<FoundThing> all)
    {
        var fit = all.Where(t => Headings.Plain($"{t.Name} {t.Told}") is var text && Array.TrueForAll(words, w => text.Contains(w, StringComparison.Ordinal))).ToList();
        return new FoundKind(kind, [.. fit.Take(Most)], fit.Count);
    }

    private async Task<IEnumerable<FoundThing>> TanksAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) => (await (
        from tank in db.TanksOf(user)
        join room in db.Classrooms on tank.ClassroomId equals room.Id
        join school in db.Schools on room.SchoolId equals school.Id
        orderby tank.Code
        select new { tank.Code, Room = room.Name, School = school.Name, tank.ClosedAt }).ToListAsync(cancel))
        .Select(t => new FoundThing(t.Code, $"{t.School}, {t.Room}{(t.ClosedAt is null ? "" : ", " + say["closed|tank"])}", $"/tanks/{Uri.EscapeDataString(t.Code)}"));

    private async Task<IEnumerable<FoundThing>> SchoolsAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        (await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).Select(s => new { s.Id, s.Name, s.Area, s.WaterSupply }).ToListAsync(cancel))
        .Select(s => new FoundThing(s.Name, s.WaterSupply is null ? s.Area : say.Of("{0}, water from {1}", s.Area, s.WaterSupply), $"/schools/{s.Id}"));

    private async Task<IEnumerable<FoundThing>> PeopleAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) => (await (
        from member in db.Memberships
        join person in db.Users on member.PersonId equals person.Id
        where member.ProgrammeId == user.ProgrammeId
        orderby person.Name
        select new
        {
            member.Id,
            person.Name,
            member.Role,
            School = db.Schools.Where(s => s.Id == member.SchoolId).Select(s => s.Name).FirstOrDefault(),
        }).ToListAsync(cancel))
        .Select(p => new FoundThing(p.Name, p.School is null ? say[p.Role.Word()] : $"{say[p.Role.Word()]}, {p.School}", user.Is(Role.ProgrammeLead) ? $"/people/{p.Id}" : null));

    private async Task<IEnumerable<FoundThing>> KitAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) => (await (
        from item in db.KitItems
        where item.ProgrammeId == user.ProgrammeId
        orderby item.Serial
        select new { item.Serial, item.Kind, item.Make, Tank = db.Tanks.Where(t => t.Id == item.InTankId).Select(t => t.Code).FirstOrDefault() }).ToListAsync(cancel))
        .Select(k => new FoundThing(k.Serial, string.Join(", ", new[] { say[KitWords.Of(k.Kind)], k.Make, k.Tank is null ? null : say.Of("in tank {0}", k.Tank) }.Where(w => !string.IsNullOrEmpty(w))), KitWords.Address(k.Serial)));

    private async Task<IEnumerable<FoundThing>> LotsAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) => (await (
        from lot in db.EggLots
        join season in db.Seasons on lot.SeasonId equals season.Id
        where lot.ProgrammeId == user.ProgrammeId
        orderby season.StartsOn descending, lot.Code
        select new { lot.Code, lot.Species, lot.Strain, Season = season.Name }).ToListAsync(cancel))
        .Select(l => new FoundThing(l.Code, say.Of("{0}, season {1}", SpokenFish.Of(l.Species, say) + (l.Strain is null ? "" : $", {l.Strain}"), l.Season), $"/lots/{Uri.EscapeDataString(l.Code)}"));

    private async Task<IEnumerable<FoundThing>> PermitsAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        (await db.Permits.AsNoTracking().Where(p => p.ProgrammeId == user.ProgrammeId).OrderBy(p => p.Number).ToListAsync(cancel))
        .Select(p => new FoundThing(p.Number, say.Of("{0} into {1}, until {2}", SpokenFish.Of(p.Species, say), p.Water, SeasonAtHand.Day(p.To, say)), $"/releases/permits/{p.Id}"));

    private static async Task<IEnumerable<FoundThing>> SitesAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        (await db.ReleaseSites.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).ToListAsync(cancel))
        .Select(s => new FoundThing(s.Name, s.Water, $"/releases/sites/{s.Id}"));
}
