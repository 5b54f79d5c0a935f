using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.NextSeason;

/// <summary>One kind of change since the last season, and what it concerns.</summary>
public sealed record SeasonChange(string What, string Which, string? Address = null);

/// <summary>What is otherwise than the last season had it: what a lead would forget to look at.</summary>
public sealed class SeasonChanges(IDbContextFactory<HatcheryDb> databases, INumberNames numbers)
{
    /// <summary>More are counted, not named.</summary>
    private const int MostNamed = 12;

    public async Task<IReadOnlyList<SeasonChange>> SinceAsync(CurrentUser user, NextSeasonAtHand hand, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        List<SeasonChange> changes = [.. OfTanks(hand), .. await OfPeopleAsync(db, user, hand, cancel), .. await OfKitAsync(db, user, cancel)];
        var (today, last) = (hand.Now.Today, hand.Last!.EndsOn);
        var permits = await db.Permits.AsNoTracking().Where(p => p.ProgrammeId == user.ProgrammeId && p.To >= hand.Last.StartsOn).OrderBy(p => p.To).ToListAsync(cancel);
        Add("Permits that run out", permits.Where(p => p.To <= (last > today ? last : today)).Select(p => $"{p.Number}, {SeasonAtHand.Day(p.To)}"), "/releases/permits");
        Add("Limits set apart from their default", (await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Key).ToListAsync(cancel))
            .Select(s => string.Create(CultureInfo.InvariantCulture, $"{numbers.Of(s.Key)}: {s.Value:0.###}")), "/settings");
        return changes;

        void Add(string what, IEnumerable<string> which, string? address) => changes.AddRange(Some(what, which, address));
    }

    private static IEnumerable<SeasonChange> OfTanks(NextSeasonAtHand hand)
    {
        var took = hand.Tanks.Any(t => t.TookPart);
        var then = hand.LastPart.ToDictionary(p => p.TankId);
        return
        [
            .. Some("Tanks that did not take part", took ? hand.Tanks.Where(t => !t.TookPart).Select(t => $"{t.Tank.Code} ({t.School.Name}, {t.Room.Name})") : [], "/schools"),
            .. Some("Tanks that are closed now", hand.Tanks.Where(t => t.TookPart && t.Tank.ClosedAt is not null).Select(t => t.Tank.Code), "/schools"),
            .. Some("Renamed", hand.Tanks.Where(t => then.TryGetValue(t.Tank.Id, out var was) && (was.Room != t.Room.Name || was.School != t.School.Name))
                .Select(t => $"{t.Tank.Code}: {then[t.Tank.Id].School}, {then[t.Tank.Id].Room} is now {t.School.Name}, {t.Room.Name}"), "/schools"),
            .. Some("Rooms whose teacher had a first season", hand.Tanks.Where(t => t.Room.NewTeacher).Select(t => $"{t.School.Name}, {t.Room.Name}").Distinct(), "/schools"),
        ];
    }

    private static async Task<IEnumerable<SeasonChange>> OfPeopleAsync(HatcheryDb db, CurrentUser user, NextSeasonAtHand hand, CancellationToken cancel)
    {
        var since = hand.Now.Clock.Utc(hand.Last!.StartsOn, TimeOnly.MinValue);
        var came = await db.Invitations.AsNoTracking().Where(i => i.ProgrammeId == user.ProgrammeId && i.AcceptedAt > since).OrderBy(i => i.AcceptedAt)
            .Select(i => i.Name ?? i.Email).ToListAsync(cancel);
        return Some("People who came", came, "/people");
    }

    private static async Task<IEnumerable<SeasonChange>> OfKitAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var broken = await db.KitItems.AsNoTracking()
            .Where(k => k.ProgrammeId == user.ProgrammeId && (k.Condition == KitCondition.Faulty || k.Condition == KitCondition.InRepair))
            .OrderBy(k => k.Serial).ToListAsync(cancel);
        return
        [
            .. Some("Kit in repair", broken.Where(k => k.Condition == KitCondition.InRepair).Select(k => k.Serial), "/kit?condition=InRepair"),
            .. Some("Kit that is faulty", broken.Where(k => k.Condition == KitCondition.Faulty).Select(k => k.Serial), "/kit?condition=Faulty"),
        ];
    }

    private static IEnumerable<SeasonChange> Some(string what, IEnumerable<string> which, string? address)
    {
        var all = which.ToList();
        return all.Count == 0 ? [] : [new SeasonChange(what, $"{string.Join("; ", all.Take(MostNamed))}{(all.Count > MostNamed ? $"; and {all.Count - MostNamed} more" : "")}", address)];
    }
}
