using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>Somebody who wants a place then: as a choice, or settled.</summary>
/// <param name="Rank">Which choice; null when it is settled.</param>
/// <param name="Told">What is in its way; empty when nothing is.</param>
public sealed record Want(BookingSeen Seen, ReleaseSite Site, int? Rank, string Told);

/// <summary>A part of a day that is wanted more than once.</summary>
public sealed record ClashDay(DateOnly On, DayPart Part, IReadOnlyList<Want> Wants);

/// <summary>Every choice and every settled booking against all others.</summary>
/// <param name="Uncovered">Settled bookings that their permit does not cover any more, with the reason.</param>
public sealed record ClashView(IReadOnlyList<ClashDay> Days, IReadOnlyList<(BookingSeen Seen, string Why)> Uncovered)
{
    public static ClashView Of(BookingsAtHand hand)
    {
        var open = hand.Bookings.Where(b => b.Booking.State != BookingState.Cancelled).ToList();
        var wanted = open.SelectMany(Wishes).Where(w => w.Slot.On >= hand.Season.Today).ToList();
        var outings = wanted.Select(w => w.Seen.At(w.Slot, w.Seen.Helpers)).ToList();
        var wants = wanted.Select(w => (w.Slot, Want: new Want(
            w.Seen, hand.Sites[w.Slot.SiteId], w.Rank,
            hand.Tell(BookingRules.Clashes(w.Seen.At(w.Slot, w.Seen.Helpers), hand.Sites[w.Slot.SiteId], outings), w.Slot))));
        var days = wants.Where(w => w.Want.Told.Length > 0)
            .GroupBy(w => (w.Slot.On, w.Slot.Part)).OrderBy(g => g.Key)
            .Select(g => new ClashDay(g.Key.On, g.Key.Part, [.. g.Select(w => w.Want).OrderBy(w => w.Site.Name, StringComparer.Ordinal).ThenBy(w => w.Rank ?? 0)]));
        return new ClashView([.. days], [.. open.SelectMany(b => Uncovering(hand, b))]);
    }

    private static IEnumerable<(BookingSeen Seen, Slot Slot, int? Rank)> Wishes(BookingSeen seen) => seen.Booking.Slot is { } slot
        ? [(seen, slot, null)]
        : seen.Choices.Select(c => (seen, c.Slot, (int?)c.Rank));

    private static IEnumerable<(BookingSeen Seen, string Why)> Uncovering(BookingsAtHand hand, BookingSeen seen) =>
        seen.Booking.Slot is { } slot && slot.On >= hand.Season.Today && hand.Permits.FirstOrDefault(p => p.Permit.Id == seen.Booking.PermitId) is { } use
            ? hand.Against(seen, use, slot).Select(why => (seen, why))
            : [];
}
