using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Permits;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>A tank of a booking with what is in it.</summary>
public sealed record BookedTank(Tank Tank, Classroom Room, EggLot? Lot, int Fish, DateOnly? DeliveredOn);

/// <summary>A booking with its school, its choices and whom it holds.</summary>
public sealed record BookingSeen(
    ReleaseBooking Booking, School School, IReadOnlyList<BookingChoice> Choices, IReadOnlyList<BookingHold> Holds, IReadOnlyList<BookedTank> Tanks)
{
    public IReadOnlyList<Guid> Helpers => [.. Holds.Where(h => h.Kind == HeldKind.Helper).Select(h => h.HeldId)];

    public string Codes => string.Join(", ", Tanks.Select(t => t.Tank.Code));

    /// <summary>As it would be in others' way at <paramref name="slot"/>.</summary>
    public Outing At(Slot slot, IReadOnlyCollection<Guid> helpers) => new(
        Booking.Id, slot, Booking.Visitors, Booking.Buses, [.. Tanks.Select(t => t.Room.Id).Distinct()], helpers);

    /// <summary>Null until it is settled.</summary>
    public Outing? Settled => Booking.Slot is { } slot ? At(slot, Helpers) : null;
}

/// <summary>The season's bookings that a person may see, with all that they are settled from.</summary>
/// <param name="People">Names of the programme's people who may help, by id.</param>
public sealed record BookingsAtHand(
    SeasonAtHand Season, IReadOnlyList<BookingSeen> Bookings, IReadOnlyDictionary<Guid, ReleaseSite> Sites, IReadOnlyList<PermitUse> Permits,
    IReadOnlyDictionary<Guid, string> People)
{
    public BookingSeen? Find(Guid id) => Bookings.FirstOrDefault(b => b.Booking.Id == id);

    public IEnumerable<Outing> Outings => Bookings.Select(b => b.Settled).OfType<Outing>();

    /// <summary>What the settled bookings leave no room for.</summary>
    public IReadOnlyList<Clash> ClashesOf(BookingSeen booking, Slot slot, IReadOnlyCollection<Guid> helpers) =>
        BookingRules.Clashes(booking.At(slot, helpers), Sites[slot.SiteId], Outings);

    /// <summary>What is in the way, and with whom: said once of those who are in the way in several ways.</summary>
    public string Tell(IEnumerable<Clash> clashes, Slot slot)
    {
        var parts = from clash in clashes
                    group Word(clash, slot) by string.Join(", ", clash.Others.Select(Find).OfType<BookingSeen>().Select(b => $"{b.School.Name} ({b.Codes})").Distinct()) into with
                    select $"{string.Join(" ", with)}{(with.Key.Length > 0 ? $" Then also: {with.Key}." : "")}";
        return string.Join(" ", parts);
    }

    private string Word(Clash clash, Slot slot)
    {
        var what = clash.Kind switch
        {
            ClashKind.RoomElsewhere => $"{Bookings.SelectMany(b => b.Tanks).FirstOrDefault(t => t.Room.Id == clash.Of)?.Room.Name ?? "A room"} ",
            ClashKind.HelperElsewhere => $"{People.GetValueOrDefault(clash.Of) ?? "A helper"} ",
            _ => "",
        };
        return what + BookingWords.Word(clash.Kind, Sites[slot.SiteId]);
    }

    /// <summary>What stands against a permit for a booking's fish at a site on a day.</summary>
    public IReadOnlyList<string> Against(BookingSeen booking, PermitUse use, Slot slot)
    {
        // Fish of several deliveries may be held only as long as the first of them.
        var delivered = booking.Tanks.Select(t => t.DeliveredOn).OfType<DateOnly>().Order().Cast<DateOnly?>().FirstOrDefault();
        var heldUntil = PermitRules.HeldUntil(use.Permit, delivered);
        var species = booking.Tanks.Select(t => t.Lot?.Species).OfType<Tankside.Science.Eggs.Species>().Distinct().ToList();
        var site = Sites[slot.SiteId];
        return [.. BookingRules.Check(use.Permit, site, species, slot.On, Season.Today, heldUntil, use.Left).Select(w => BookingWords.Word(w, use.Permit, site, heldUntil))];
    }
}

/// <summary>Loads the season's bookings: a teacher's own school's, everybody else's whole programme's.</summary>
public sealed class BookingBoard(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<BookingsAtHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LoadAsync(db, user, time, cancel);
    }

    internal static async Task<BookingsAtHand> LoadAsync(HatcheryDb db, CurrentUser user, TimeProvider time, CancellationToken cancel)
    {
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var seasonId = season.Season?.Id ?? Guid.Empty;
        var rows = await (
            from booking in InReach(db, user).AsNoTracking()
            join school in db.Schools on booking.SchoolId equals school.Id
            where booking.SeasonId == seasonId
            orderby booking.AskedAt, booking.Id
            select new { booking, school }).ToListAsync(cancel);
        var ids = rows.Select(r => r.booking.Id).ToList();
        var choices = (await db.BookingChoices.AsNoTracking().Where(c => ids.Contains(c.BookingId)).OrderBy(c => c.Rank).ToListAsync(cancel)).ToLookup(c => c.BookingId);
        var holds = (await db.BookingHolds.AsNoTracking().Where(h => ids.Contains(h.BookingId)).ToListAsync(cancel)).ToLookup(h => h.BookingId);
        var tanks = await TanksAsync(db, user, seasonId, season, [.. rows.SelectMany(r => r.booking.TankIds).Distinct()], cancel);
        var helpers = await (
            from member in Helpers(db, user.ProgrammeId)
            join person in db.Users on member.PersonId equals person.Id
            orderby person.Name, person.Id
            select new { person.Id, person.Name }).ToListAsync(cancel);
        return new BookingsAtHand(
            season,
            [.. rows.Select(r => new BookingSeen(r.booking, r.school, [.. choices[r.booking.Id]], [.. holds[r.booking.Id]], [.. r.booking.TankIds.Where(tanks.ContainsKey).Select(t => tanks[t]).OrderBy(t => t.Tank.Code, StringComparer.Ordinal)]))],
            await db.ReleaseSites.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Id, cancel),
            await PermitUse.LoadAsync(db, user.ProgrammeId, cancel),
            helpers.ToDictionary(h => h.Id, h => h.Name));
    }

    /// <summary>Bookings that exist for a person.</summary>
    public static IQueryable<ReleaseBooking> InReach(HatcheryDb db, CurrentUser user) =>
        from booking in db.ReleaseBookings
        join school in db.Schools on booking.SchoolId equals school.Id
        where school.ProgrammeId == user.ProgrammeId && (user.Role != Role.Teacher || school.Id == user.SchoolId)
        select booking;

    /// <summary>People who may be named as helpers.</summary>
    public static IQueryable<Membership> Helpers(HatcheryDb db, Guid programmeId) =>
        db.Memberships.Where(m => m.ProgrammeId == programmeId && m.Role != Role.AgencyContact);

    private static async Task<Dictionary<Guid, BookedTank>> TanksAsync(
        HatcheryDb db, CurrentUser user, Guid seasonId, SeasonAtHand season, IReadOnlyList<Guid> ids, CancellationToken cancel)
    {
        var rows = await (
            from tank in TanksInReach.Of(db, user).AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where ids.Contains(tank.Id)
            select new { tank, room }).ToListAsync(cancel);
        var lots = await LotsInTanks.LoadAsync(db, seasonId, cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => e.SeasonId == seasonId && ids.Contains(e.TankId)).ToListAsync(cancel)).ToLookup(e => e.TankId);
        var delivered = await db.Receipts.Where(r => r.SeasonId == seasonId && ids.Contains(r.TankId))
            .GroupBy(r => r.TankId).Select(g => new { g.Key, At = g.Min(r => r.At) }).ToDictionaryAsync(g => g.Key, g => g.At, cancel);
        return rows.ToDictionary(r => r.tank.Id, r => new BookedTank(
            r.tank, r.room, lots.Of(r.tank.Id), TankBalance.Of(entries[r.tank.Id], r.tank.ClosedAt is not null).StillInTank,
            delivered.TryGetValue(r.tank.Id, out var at) ? season.Clock.Day(at) : null));
    }
}
