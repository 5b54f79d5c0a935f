using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>Place, day and permit that the coordinator settles, with the people who help.</summary>
public sealed class SettleForm
{
    /// <summary>As it stood when the page was shown.</summary>
    public int Version { get; set; }

    public string? Site { get; set; }

    public string? On { get; set; }

    public string? Part { get; set; }

    public string? Permit { get; set; }

    /// <summary>People of the programme who help.</summary>
    public Guid[]? Helpers { get; set; }
}

/// <summary>
/// Settles a booking, or moves one that is settled. Nothing is booked twice: the site's version is raised with every booking there, so that of
/// two at the same moment the second is decided again with the first one counted, and each room and helper is held at one place by a unique row.
/// </summary>
public sealed class SettleBooking(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> HandleAsync(CurrentUser user, Guid bookingId, SettleForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, bookingId, form, refuse, cancel), refuse);

    private sealed record Said(Slot Slot, Guid Permit, IReadOnlyList<Guid> Helpers);

    private async Task<Notice?> TryAsync(CurrentUser user, Guid bookingId, SettleForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var typed = new TypedFields(refuse);
        var said = Read(form, typed);
        var booking = await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == bookingId, cancel);
        if (booking is null || !user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            return new Notice(false, "There is no such booking among those you may settle. Nothing was changed.");
        }

        if (booking.Version != form.Version || booking.State == BookingState.Cancelled)
        {
            typed.Refuse("", "Somebody changed this booking since you opened this page. Nothing was saved. Open it again, look, and then settle it.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        // The site before the bookings: whoever settles there after this line raises its version, and is counted at the next try.
        var site = await db.ReleaseSites.SingleOrDefaultAsync(s => s.Id == said.Slot.SiteId && s.ProgrammeId == user.ProgrammeId, cancel);
        if (site is null)
        {
            typed.Refuse(nameof(form.Site), "This place is not in the list any more. Choose another.");
            return null;
        }

        var hand = await BookingBoard.LoadAsync(db, user, time, cancel);
        var seen = hand.Find(bookingId);
        if (seen is null || !MayBeSettled(hand, seen, said, typed))
        {
            return null;
        }

        db.Entry(site).Property(s => s.Version).IsModified = true;
        await KeepAsync(db, hand, booking, seen, said, user, cancel);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Settled: {seen.School.Name} with {seen.Codes} at {hand.Sites[said.Slot.SiteId].Name}, {BookingWords.When(said.Slot)}.");
    }

    private static Said Read(SettleForm form, TypedFields typed) => new(
        new Slot(
            typed.Choice(nameof(form.Site), form.Site, "Choose the place."),
            typed.Day(nameof(form.On), form.On),
            typed.Choice<DayPart>(nameof(form.Part), form.Part, "Choose morning or afternoon.")),
        typed.Choice(nameof(form.Permit), form.Permit, "Choose the permit that covers this release."),
        [.. (form.Helpers ?? []).Distinct()]);

    private static bool MayBeSettled(BookingsAtHand hand, BookingSeen seen, Said said, TypedFields typed)
    {
        var use = hand.Permits.FirstOrDefault(p => p.Permit.Id == said.Permit);
        if (use is null)
        {
            typed.Refuse(nameof(SettleForm.Permit), "This permit is not in the list any more. Choose another.");
            return false;
        }

        if (said.Helpers.Any(h => !hand.People.ContainsKey(h)))
        {
            typed.Refuse(nameof(SettleForm.Helpers), "One of these people is not in the programme any more. Choose again.");
        }

        foreach (var why in hand.Against(seen, use, said.Slot))
        {
            typed.Refuse(nameof(SettleForm.Permit), why);
        }

        foreach (var clashes in hand.ClashesOf(seen, said.Slot, said.Helpers).GroupBy(c => c.Kind == ClashKind.HelperElsewhere))
        {
            typed.Refuse(clashes.Key ? nameof(SettleForm.Helpers) : nameof(SettleForm.On), hand.Tell(clashes, said.Slot));
        }

        return typed.AllGood;
    }

    private static async Task KeepAsync(
        HatcheryDb db, BookingsAtHand hand, ReleaseBooking booking, BookingSeen seen, Said said, CurrentUser user, CancellationToken cancel)
    {
        if (booking.Slot != said.Slot || booking.PermitId != said.Permit)
        {
            // The agency agreed to another day, place or permit.
            (booking.AgencyAgrees, booking.AgencyWho, booking.AgencyAt) = (null, null, null);
        }

        (booking.State, booking.SiteId, booking.On, booking.Part, booking.PermitId) =
            (BookingState.Settled, said.Slot.SiteId, said.Slot.On, said.Slot.Part, said.Permit);
        await HoldAsync(db, booking, [.. seen.Tanks.Select(t => (HeldKind.Room, t.Room.Id)).Distinct(), .. said.Helpers.Select(h => (HeldKind.Helper, h))], cancel);
        var helpers = string.Join(", ", said.Helpers.Select(h => hand.People[h]));
        db.BookingActs.Add(BookingActs.New(
            booking.Id, user, BookingDeed.Settled, hand.Season.Now,
            $"{hand.Sites[said.Slot.SiteId].Name}, {BookingWords.When(said.Slot)}{(helpers.Length > 0 ? $"; helpers: {helpers}" : "")}"));
    }

    private static async Task HoldAsync(HatcheryDb db, ReleaseBooking booking, IReadOnlyList<(HeldKind Kind, Guid Id)> held, CancellationToken cancel)
    {
        var old = await db.BookingHolds.Where(h => h.BookingId == booking.Id).ToListAsync(cancel);
        var stays = old.Where(o => o.On == booking.On && o.Part == booking.Part && held.Contains((o.Kind, o.HeldId))).ToList();
        db.RemoveRange(old.Except(stays));
        db.AddRange(held.Where(h => stays.TrueForAll(s => (s.Kind, s.HeldId) != h)).Select(h => new BookingHold
        {
            Id = Guid.NewGuid(),
            BookingId = booking.Id,
            On = booking.On!.Value,
            Part = booking.Part!.Value,
            Kind = h.Kind,
            HeldId = h.Id,
        }));
    }
}
