using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Releases.Bookings;

/// <summary>Why a booking cannot be settled so.</summary>
public enum BookingRefusal
{
    DayIsPast,
    WrongWater,
    WrongSpecies,
    OutOfSeason,
    PastHoldLimit,
    PermitUsedUp,
    NilReported,
}

/// <summary>What stands in the way of an outing on the others' side.</summary>
public enum ClashKind
{
    /// <summary>More people than have room at the site at once.</summary>
    SiteFull,

    /// <summary>More buses than can stand there.</summary>
    NoRoomForBuses,

    /// <summary>Nobody has said how many the site takes, so it takes one school at a time, and one is there.</summary>
    SiteTaken,
    RoomElsewhere,
    HelperElsewhere,
}

/// <summary>A booking as far as it can be in another's way.</summary>
/// <param name="Rooms">Classrooms that come; <paramref name="Helpers"/> are people of the programme.</param>
public sealed record Outing(Guid BookingId, Slot Slot, int Visitors, int Buses, IReadOnlyCollection<Guid> Rooms, IReadOnlyCollection<Guid> Helpers)
{
    public bool IsAtSameTime(Outing other) => other.BookingId != BookingId && other.Slot.On == Slot.On && other.Slot.Part == Slot.Part;
}

/// <summary>Something that two or more outings want at once.</summary>
/// <param name="Of">The site, room or person.</param>
public sealed record Clash(ClashKind Kind, Guid Of, IReadOnlyList<Guid> Others);

/// <summary>Nobody and nothing is in two places at once, and no site takes more than it has room for.</summary>
public static class BookingRules
{
    /// <summary>What stands against it on the permit's side.</summary>
    /// <param name="heldUntil">Last day on which the permit lets these fish be held, by their delivery.</param>
    public static IReadOnlyList<BookingRefusal> Check(
        Permit permit, ReleaseSite site, IReadOnlyCollection<Species> species, DateOnly on, DateOnly today, DateOnly? heldUntil, int fishLeft)
    {
        var refusals = new List<BookingRefusal>();
        Refuse(BookingRefusal.DayIsPast, on < today);
        Refuse(BookingRefusal.WrongWater, !PermitRules.IsSameWater(site.Water, permit.Water));
        Refuse(BookingRefusal.WrongSpecies, species.Any(s => s != permit.Species));
        Refuse(BookingRefusal.OutOfSeason, on < permit.From || on > permit.To);
        Refuse(BookingRefusal.PastHoldLimit, heldUntil is { } last && on > last);
        Refuse(BookingRefusal.PermitUsedUp, fishLeft <= 0);
        Refuse(BookingRefusal.NilReported, permit.NilReportedAt is not null);
        return refusals;

        void Refuse(BookingRefusal why, bool when)
        {
            if (when)
            {
                refusals.Add(why);
            }
        }
    }

    /// <summary>Everything of <paramref name="wanted"/> that the others leave no room for.</summary>
    public static IReadOnlyList<Clash> Clashes(Outing wanted, ReleaseSite site, IEnumerable<Outing> others)
    {
        var then = others.Where(wanted.IsAtSameTime).ToList();
        var there = then.Where(o => o.Slot.SiteId == wanted.Slot.SiteId).ToList();
        List<Guid> thereIds = [.. there.Select(o => o.BookingId)];
        var clashes = new List<Clash>();
        Add(ClashKind.SiteTaken, site.MostVisitors is null && there.Count > 0);
        Add(ClashKind.SiteFull, site.MostVisitors is { } most && wanted.Visitors + there.Sum(o => (long)o.Visitors) > most);
        Add(ClashKind.NoRoomForBuses, site.MostBuses is { } buses && wanted.Buses + there.Sum(o => (long)o.Buses) > buses);
        clashes.AddRange(Twice(ClashKind.RoomElsewhere, wanted.Rooms, o => o.Rooms));
        clashes.AddRange(Twice(ClashKind.HelperElsewhere, wanted.Helpers, o => o.Helpers));
        return clashes;

        void Add(ClashKind kind, bool when)
        {
            if (when)
            {
                clashes.Add(new Clash(kind, site.Id, thereIds));
            }
        }

        IEnumerable<Clash> Twice(ClashKind kind, IReadOnlyCollection<Guid> mine, Func<Outing, IReadOnlyCollection<Guid>> theirs) =>
            from id in mine
            let with = then.Where(o => theirs(o).Contains(id)).Select(o => o.BookingId).ToList()
            where with.Count > 0
            select new Clash(kind, id, with);
    }
}
