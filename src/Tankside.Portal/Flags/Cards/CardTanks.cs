using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Cards;

/// <summary>Loads what cards say, for whoever may see the tanks. Tanks closed for the season have none.</summary>
public sealed class CardTanks(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, TimeProvider time)
{
    /// <summary>Whose names have room on a card.</summary>
    private const int MostContacts = 2;

    /// <param name="tankCode">Null for every open tank of the asker, school by school.</param>
    public async Task<IReadOnlyList<CardTank>> LoadAsync(CurrentUser user, string? tankCode, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var ids = await db.TanksOf(user).Where(t => t.ClosedAt == null && (tankCode == null || t.Code == tankCode)).Select(t => t.Id).ToListAsync(cancel);
        if (ids.Count == 0)
        {
            return [];
        }

        var surroundings = await Surroundings.LoadAsync(db, ids, cancel, now);
        var records = (await TankRecords.LoadAsync(db, ids, surroundings, withSiblings: false, now, cancel)).ToDictionary(r => r.Tank.Id);
        var codes = user.Is(Role.KitHand) ? [] : await CodesAsync(db, ids, cancel);
        var call = await ContactsAsync(db, user, cancel);
        return [.. surroundings.All
            .OrderBy(p => p.School.Name, StringComparer.Ordinal).ThenBy(p => p.School.Id).ThenBy(p => p.Tank.Code, StringComparer.Ordinal)
            .Select(p => Of(p, records[p.Tank.Id], codes.GetValueOrDefault(p.Tank.Id), WithBackup(p.Room, user, call), now))];
    }

    /// <summary>The room's backup takes the second place on its cards; the number is printed for those who may give it.</summary>
    private static IReadOnlyList<CardContact> WithBackup(Classroom room, CurrentUser user, IReadOnlyList<CardContact> call) =>
        room.BackupName is { } backup
            ? [.. call.Take(MostContacts - 1), new CardContact(backup, user.Is(Role.Teacher, Role.Coordinator, Role.ProgrammeLead) ? room.BackupPhone : null)]
            : call;

    private CardTank Of(TankPlace place, TankRecord record, string? code, IReadOnlyList<CardContact> call, DateTime now)
    {
        var day = place.Calendar.Clock.Day(now);
        var label = code is null ? null : new TankLabel(place.Tank.Code, place.Room.Name, place.School.Name, code, options.PublicUrl);
        var dial = record is { Plan: { } plan, Fish: > 0 } ? SetPointCourse.On(plan, day) : record.Tank.SetPointC;
        return new CardTank(
            place, record with { Tank = record.Tank with { SetPointC = dial } }, record.Lot is null ? null : record.DevelopmentOn(day), now, label, call);
    }

    private static async Task<Dictionary<Guid, string>> CodesAsync(HatcheryDb db, IReadOnlyList<Guid> ids, CancellationToken cancel) =>
        (await db.RoomCodes.AsNoTracking().Where(c => ids.Contains(c.TankId) && c.RevokedAt == null).ToListAsync(cancel))
            .GroupBy(c => c.TankId).ToDictionary(g => g.Key, g => g.MaxBy(c => c.IssuedAt)!.Code);

    /// <summary>
    /// The coordinators, or the leads of a programme that has none. A number was given for coordinators to use: it is printed when one of
    /// them prints the card.
    /// </summary>
    private static async Task<IReadOnlyList<CardContact>> ContactsAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel)
    {
        var people = await (
            from member in db.Memberships.AsNoTracking()
            join person in db.Users on member.PersonId equals person.Id
            where member.ProgrammeId == user.ProgrammeId && (member.Role == Role.Coordinator || member.Role == Role.ProgrammeLead)
            orderby person.Name, person.Id
            select new { member.Role, person.Name, person.PhoneNumber }).ToListAsync(cancel);
        var called = people.Any(p => p.Role == Role.Coordinator) ? Role.Coordinator : Role.ProgrammeLead;
        var withPhone = user.Is(Role.Coordinator, Role.ProgrammeLead);
        return [.. people.Where(p => p.Role == called).Take(MostContacts)
            .Select(p => new CardContact(p.Name, withPhone && !string.IsNullOrWhiteSpace(p.PhoneNumber) ? p.PhoneNumber : null))];
    }
}
