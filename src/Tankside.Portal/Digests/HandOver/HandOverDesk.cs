using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Kit;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Digests.HandOver;

/// <summary>Puts the pack together from what the other pages read; nothing is worked out a second time.</summary>
public sealed class HandOverDesk(IDbContextFactory<HatcheryDb> databases, Round round, ProgrammePeople people, SixWeeks weeks)
{
    public async Task<HandOverPack> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        var now = await round.LoadAsync(user.ProgrammeId, cancel);
        var programme = await people.ProgrammeAsync(user, cancel);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var troubles = now.Rows.Concat(now.Resting).SelectMany(row => row.Troubles.Select(t => (Row: row, Trouble: t))).ToList();
        var time = new TimeWords(now.Clock, now.At);
        return new HandOverPack(
            programme.Name, now.Clock.Local(now.At).ToString("dddd d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture), now.At,
            [
                await FlagsAsync(db, [.. troubles.Where(t => t.Trouble.Flag.Kind != FlagKind.Silent)], time, cancel),
                Silent([.. troubles.Where(t => t.Trouble.Flag.Kind == FlagKind.Silent)]),
                await weeks.LoadAsync(user, cancel),
                await SparesAsync(db, user, cancel),
                await PeopleAsync(db, user, cancel),
                await DoorsAsync(db, user, cancel),
                await KeysAsync(user, now.Clock, cancel),
            ]);
    }

    private static async Task<HandOverPart> FlagsAsync(
        HatcheryDb db, IReadOnlyList<(RoundRow Row, RoundTrouble Trouble)> troubles, TimeWords time, CancellationToken cancel)
    {
        var ids = troubles.Where(t => t.Trouble.Flag.PromiseDue is not null).Select(t => t.Trouble.Flag.Id).ToList();
        var promises = (await db.FlagEvents.AsNoTracking().Where(e => ids.Contains(e.FlagId) && e.Deed == FlagDeed.Promised).ToListAsync(cancel))
            .GroupBy(e => e.FlagId).ToDictionary(g => g.Key, g => g.MaxBy(e => e.At)!.Note);
        return new HandOverPart(
            "flags", "Open flags",
            "In the order of the morning round, those that rest at the end. Who took one answers for it until they give it back: ask them first, then take it over in the round. A promise that falls due brings its flag back by itself.",
            ["Tank", "What", "How soon", "Taken by", "Promise or rest"], [0.2, 0.38, 0.1, 0.12, 0.2],
            [.. troubles.Select(t => (IReadOnlyList<string>)
            [
                Who(t.Row), t.Trouble.Reason, FlagWords.Of(t.Trouble.Flag.Urgency), t.Trouble.TakenByName ?? "nobody", Rest(t.Trouble.Flag),
            ])],
            "No flag is open.");

        string Rest(Flag flag) => flag switch
        {
            { PromiseDue: { } due } => $"Promised for {Moment(due)}{(promises.GetValueOrDefault(flag.Id) is { Length: > 0 } note ? $": {note}" : "")}",
            { WaitUntil: { } until } => $"Rests until {Moment(until)}",
            { PromiseFellDue: true } => "A promise fell due",
            _ => "",
        };

        string Moment(DateTime at) => time.When(at);
    }

    private static HandOverPart Silent(IReadOnlyList<(RoundRow Row, RoundTrouble Trouble)> troubles) => new(
        "silent", "Silent tanks",
        "Nobody has read these tanks for longer than the programme lets pass. Silence is no trouble seen, but nothing is known either: one call ends it.",
        ["Tank", "Since when", "Taken by"], [0.3, 0.5, 0.2],
        [.. troubles.Select(t => (IReadOnlyList<string>)[Who(t.Row), t.Trouble.Reason, t.Trouble.TakenByName ?? "nobody"])], "No tank is silent.");

    private static async Task<HandOverPart> SparesAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var depots = await Depots.LoadAsync(db, user.ProgrammeId, cancel);
        var kit = (await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == user.ProgrammeId && k.DepotId != null).ToListAsync(cancel)).ToLookup(k => k.DepotId);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var lines =
            from depot in depots
            from item in kit[depot.Depot.Id].Where(k => k.Spot.Place == Hatchery.Kit.KitPlace.Depot).OrderBy(k => k.Kind).ThenBy(k => k.Serial, StringComparer.Ordinal)
            let promised = item.ReservedForTankId is { } tank && names.Tanks.TryGetValue(tank, out var of) ? $", promised to {of.Tank.Code}" : ""
            let state = (item.IsSpare ? "ready" : KitWords.Of(item.Condition)) + (item.ToClean ? ", to be cleaned" : "") + promised
            select (IReadOnlyList<string>)[string.Join("; ", new[] { depot.Words, depot.Depot.Hours, depot.Phone }.Where(w => !string.IsNullOrWhiteSpace(w))), KitWords.Of(item.Kind), item.Serial, state];
        return new HandOverPart(
            "spares", "Spares", "What lies at the depots. Ready means that it works and stands in no tank; what is promised to a tank is lent to nobody else until the promise is taken back in the round.",
            ["Depot", "What", "Serial", "State"], [0.4, 0.16, 0.2, 0.24], [.. lines], "No kit lies at a depot.");
    }

    private static async Task<HandOverPart> PeopleAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var rows = await (
            from member in db.Memberships.AsNoTracking()
            join person in db.Users on member.PersonId equals person.Id
            join school in db.Schools on member.SchoolId equals school.Id into schools
            from school in schools.DefaultIfEmpty()
            where member.ProgrammeId == user.ProgrammeId
            orderby person.Name, person.Id
            select new { person.Name, member.Role, School = school == null ? null : school.Name, person.PhoneNumber, person.Email }).ToListAsync(cancel);
        var backups = await (
            from room in db.Classrooms.AsNoTracking()
            join school in db.Schools on room.SchoolId equals school.Id
            where school.ProgrammeId == user.ProgrammeId && room.BackupName != null
            orderby school.Name, room.Name
            select new { room.BackupName, School = school.Name, Room = room.Name, room.BackupPhone }).ToListAsync(cancel);
        return new HandOverPart(
            "people", "People", "Numbers and addresses were given for coordinators to ring and write about the tanks. Hand this sheet to nobody else, and shred the old one.",
            ["Name", "Role", "School", "Telephone", "Mail"], [0.22, 0.14, 0.22, 0.16, 0.26],
            [.. rows.OrderBy(r => r.Role == Role.Teacher).Select(r => (IReadOnlyList<string>)[r.Name, r.Role.Word(), r.School ?? "", r.PhoneNumber ?? "", r.Email ?? ""]),
                .. backups.Select(b => (IReadOnlyList<string>)[b.BackupName!, "backup", $"{b.School}, {b.Room}", b.BackupPhone ?? "", ""])], "Nobody belongs to the programme.");
    }

    private static async Task<HandOverPart> DoorsAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var rows = await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId && (s.DoorNotes != null || s.BellTimes != null))
            .OrderBy(s => s.Name).ThenBy(s => s.Id).ToListAsync(cancel);
        return new HandOverPart(
            "doors", "Doors and bells", "Which door, where to sign in, when a call reaches the teacher. A school that is not here has told nothing: ask at its office, and note it under Schools.",
            ["School", "Door and sign-in", "Bells"], [0.25, 0.45, 0.3], [.. rows.Select(s => (IReadOnlyList<string>)[s.Name, s.DoorNotes ?? "", s.BellTimes ?? ""])], "No school has told about its door or its bells.");
    }

    private async Task<HandOverPart> KeysAsync(CurrentUser user, ProgrammeClock clock, CancellationToken cancel)
    {
        var keys = await people.KeysAsync(user, cancel);
        return new HandOverPart(
            "keys", "API keys", "Keys that loggers and other programs hold. The key itself was shown once and is kept nowhere. Whoever leaves with a key still has it: then the lead makes a new one and revokes the old.",
            ["What uses it", "What it may do", "Tanks", "Made", "Last used"], [0.2, 0.28, 0.2, 0.16, 0.16],
            [.. keys.Select(k => (IReadOnlyList<string>)[k.Name ?? "no name", KeyWords.Does(k.Role), KeyWords.Tanks(k), Day(k.IssuedAt), k.LastUsedAt is { } used ? Day(used) : "not yet"])], "No key works.");

        string Day(DateTime utc) => clock.Local(utc).ToString("d MMM yyyy", CultureInfo.InvariantCulture);
    }

    private static string Who(RoundRow row) => row is RoundCall ? $"{row.Key}, {row.Who}" : row.Who;
}
