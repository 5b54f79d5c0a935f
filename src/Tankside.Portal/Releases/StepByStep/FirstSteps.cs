using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.StepByStep;

/// <summary>One step from an empty programme to its first reading. That it is done is told by what is there, never by a click.</summary>
/// <param name="Missing">What is still to be done; null for nothing.</param>
/// <param name="Address">Where it is done.</param>
public sealed record Step(string Title, string There, string? Missing, string? Address)
{
    public bool Done => Missing is null;
}

public sealed record StepsNow(string Programme, IReadOnlyList<Step> Steps)
{
    public int Done => Steps.Count(s => s.Done);

    public Step? Next => Steps.FirstOrDefault(s => !s.Done);
}

/// <summary>The way from the set-up link to the first reading, as far as a programme has come.</summary>
public sealed class FirstSteps(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null once a reading has come this season or any before: the way is walked.</summary>
    public async Task<StepsNow?> UntilFirstReadingAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Readings.AnyAsync(r => db.Tanks.Any(t => t.Id == r.TankId && t.ProgrammeId == user.ProgrammeId), cancel)
            ? null
            : await LoadAsync(db, user, cancel);
    }

    public async Task<StepsNow> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, user, cancel);
    }

    private async Task<StepsNow> LoadAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var now = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var places = await StepPlaces.LoadAsync(db, user.ProgrammeId, cancel);
        return new StepsNow(now.Programme.Name,
        [
            new Step("Programme", $"{now.Programme.Name}, time of {now.Programme.TimeZone}", null, null),
            Season(now),
            Schools(places),
            await PeopleAsync(db, user, places, now, cancel),
            await ClosuresAsync(db, user, now.Season, cancel),
            await KitAsync(db, user, places, cancel),
            await PermitsAsync(db, user, now, cancel),
            .. await EggsAsync(db, now.Season?.Id ?? Guid.Empty, places, cancel),
            await LabelsAsync(db, places, cancel),
            await ReadingAsync(db, now, places, cancel),
        ]);
    }

    private static Step Season(SeasonAtHand now) => now.Season switch
    {
        null => new("Season’s days", "no season", "Make the season.", "/season/new"),
        { } over when over.EndsOn < now.Today => new("Season’s days", $"{over.Name} ended on {SeasonAtHand.Day(over.EndsOn)}", "Make the next season.", "/season/new"),
        { } season => new("Season’s days", $"{season.Name}, {SeasonAtHand.Day(season.StartsOn)} to {SeasonAtHand.Day(season.EndsOn)}", null, $"/season/dates/{season.Id}"),
    };

    private static Step Schools(StepPlaces places) => new(
        "Schools, rooms and tanks",
        $"{Figures.Of(places.Schools, "school", "schools")}, {Figures.Of(places.Rooms, "room", "rooms")}, {Figures.Of(places.Tanks.Count, "open tank", "open tanks")}",
        places.Schools == 0 ? "Bring in the sheets of schools and rooms, or add them by hand."
        : places.Tanks.Count == 0 ? "Add their rooms and tanks."
        : places.WithoutTank > 0 ? $"{Figures.Of(places.WithoutTank, "school has", "schools have")} no open tank."
        : null,
        places.Schools == 0 ? "/places/import" : places.Tanks.Count == 0 ? "/places/import" : "/schools");

    private static async Task<Step> PeopleAsync(HatcheryDb db, CurrentUser user, StepPlaces places, SeasonAtHand now, CancellationToken cancel)
    {
        var members = await db.Memberships.Where(m => m.ProgrammeId == user.ProgrammeId).Select(m => new { m.Role, m.SchoolId }).ToListAsync(cancel);
        var waiting = await db.Invitations.Where(i => i.ProgrammeId == user.ProgrammeId && i.AcceptedAt == null && i.WithdrawnAt == null && i.ExpiresAt > now.Now).CountAsync(cancel);
        var taught = members.Where(m => m.Role == Role.Teacher).Select(m => m.SchoolId).ToHashSet();
        var without = places.SchoolsWithTank.Count(s => !taught.Contains(s));
        return new Step(
            "People",
            $"{Figures.Of(members.Count, "person has", "people have")} accepted, {Figures.Of(waiting, "invitation waits", "invitations wait")}",
            places.SchoolsWithTank.Count == 0 ? "Invite the teachers once the schools are there."
            : without > 0 ? $"{Figures.Of(without, "school has", "schools have")} no teacher who has accepted."
            : null,
            "/people");
    }

    private static async Task<Step> ClosuresAsync(HatcheryDb db, CurrentUser user, Season? season, CancellationToken cancel)
    {
        var (from, to) = (season?.StartsOn ?? DateOnly.MinValue, season?.EndsOn ?? DateOnly.MaxValue);
        var count = await db.Closures.CountAsync(c => c.ProgrammeId == user.ProgrammeId && c.LastDay >= from && c.FirstDay <= to, cancel);
        return new Step("Closures", count == 0 ? "none this season: every weekday is a school day" : Figures.Of(count, "closure this season", "closures this season"), count == 0 ? "Add the holidays, or a school district’s calendar." : null, "/season/closures");
    }

    private static async Task<Step> KitAsync(HatcheryDb db, CurrentUser user, StepPlaces places, CancellationToken cancel)
    {
        var kit = await db.KitItems.Where(k => k.ProgrammeId == user.ProgrammeId && k.Condition != KitCondition.Retired).Select(k => new { k.Kind, k.InTankId }).ToListAsync(cancel);
        var chilled = kit.Where(k => k.Kind == KitKind.Chiller && k.InTankId is not null).Select(k => k.InTankId!.Value).ToHashSet();
        var without = places.Tanks.Count(t => !chilled.Contains(t));
        return new Step(
            "Kit", Figures.Of(kit.Count, "piece in the register", "pieces in the register"),
            kit.Count == 0 ? "Enter what you lend out, chillers first." : without > 0 ? $"{Figures.Of(without, "open tank has", "open tanks have")} no chiller in the register." : null, "/kit");
    }

    private static async Task<Step> PermitsAsync(HatcheryDb db, CurrentUser user, SeasonAtHand now, CancellationToken cancel)
    {
        var today = now.Today;
        var permits = await db.Permits.CountAsync(p => p.ProgrammeId == user.ProgrammeId && p.To >= today, cancel);
        var sites = await db.ReleaseSites.CountAsync(s => s.ProgrammeId == user.ProgrammeId, cancel);
        return new Step(
            "Permits and release sites", $"{Figures.Of(permits, "permit that holds", "permits that hold")}, {Figures.Of(sites, "site", "sites")}",
            sites == 0 ? "Enter where fish may be let go." : permits == 0 ? "Enter the agency’s permits." : null, sites == 0 ? "/releases/sites" : "/releases/permits");
    }

    private static async Task<IEnumerable<Step>> EggsAsync(HatcheryDb db, Guid season, StepPlaces places, CancellationToken cancel)
    {
        var lots = await db.EggLots.CountAsync(l => l.SeasonId == season, cancel);
        var promised = await db.Allotments.Where(a => a.SeasonId == season && a.Eggs > 0).Select(a => a.TankId).Distinct().ToListAsync(cancel);
        var without = places.Tanks.Count(t => !promised.Contains(t));
        var runs = await db.DeliveryRuns.CountAsync(r => r.SeasonId == season, cancel);
        var received = await db.Receipts.Where(r => r.SeasonId == season).Select(r => r.TankId).Distinct().CountAsync(cancel);
        return
        [
            new("Egg lots", Figures.Of(lots, "lot this season", "lots this season"), lots == 0 ? "Reckon the order, and enter the lot." : null, lots == 0 ? "/lots/order" : "/lots"),
            new("Allotments", $"eggs promised to {Figures.Of(promised.Count, "tank", "tanks")}", promised.Count == 0 ? "Promise eggs to the tanks." : without > 0 ? $"{Figures.Of(without, "open tank has", "open tanks have")} no eggs promised." : null, "/lots/allot"),
            new("Delivery", $"{Figures.Of(runs, "run", "runs")}, eggs received in {Figures.Of(received, "tank", "tanks")}", runs == 0 && received == 0 ? "Plan a delivery run." : null, "/runs"),
        ];
    }

    private static async Task<Step> LabelsAsync(HatcheryDb db, StepPlaces places, CancellationToken cancel)
    {
        var printed = await db.RoomCodes.Where(c => places.Tanks.Contains(c.TankId) && c.RevokedAt == null && c.PrintedAt != null).Select(c => c.TankId).Distinct().CountAsync(cancel);
        return new Step(
            "Labels", $"{Figures.Of(printed)} of {Figures.Of(places.Tanks.Count, "open tank", "open tanks")} printed with the code that holds",
            places.Tanks.Count == 0 ? "They can be printed once there are tanks." : printed < places.Tanks.Count ? "Print them and hang them up." : null, "/labels");
    }

    private static async Task<Step> ReadingAsync(HatcheryDb db, SeasonAtHand now, StepPlaces places, CancellationToken cancel)
    {
        var since = now.Starts;
        var tanks = await db.Readings.Where(r => places.Tanks.Contains(r.TankId) && r.At >= since).Select(r => r.TankId).Distinct().CountAsync(cancel);
        return new Step("First reading", $"read this season: {Figures.Of(tanks, "tank", "tanks")}", tanks == 0 ? "A class scans its label, or types the address on it." : null, "/tanks");
    }
}
