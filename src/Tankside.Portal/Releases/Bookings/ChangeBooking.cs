using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>The agency's word, or why a booking is given up.</summary>
public sealed class BookingForm
{
    /// <summary>"yes" or "no".</summary>
    public string? Agency { get; set; }

    /// <summary>Who at the agency said so; asked of everybody but the agency contact.</summary>
    public string? Who { get; set; }

    public string? Note { get; set; }

    public string? Because { get; set; }

    /// <summary>As it stood when the page was shown: nobody agrees to what they have not seen.</summary>
    public int Version { get; set; }
}

/// <summary>Notes the agency's word on a booking, and gives bookings up.</summary>
public sealed class ChangeBooking(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> HearAgencyAsync(CurrentUser user, Guid bookingId, BookingForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryHearAsync(user, bookingId, form, refuse, cancel), refuse);

    public Task<Notice?> CancelAsync(CurrentUser user, Guid bookingId, BookingForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryCancelAsync(user, bookingId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryHearAsync(CurrentUser user, Guid bookingId, BookingForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var booking = await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == bookingId, cancel);
        if (booking is null || !user.Is(Role.Coordinator, Role.ProgrammeLead, Role.AgencyContact))
        {
            return new Notice(false, "There is no such booking among those you may confirm. Nothing was changed.");
        }

        var typed = new TypedFields(refuse);
        var who = user.Is(Role.AgencyContact) ? null : typed.Name(nameof(form.Who), form.Who, "Type who at the agency said so.");
        var note = typed.Text(nameof(form.Note), form.Note);
        if (form.Agency is not ("yes" or "no"))
        {
            typed.Refuse(nameof(form.Agency), "Choose what the agency says.");
        }

        if (booking.State != BookingState.Settled || booking.Version != form.Version)
        {
            typed.Refuse("", "This booking was changed since you opened this page. Nothing was saved. Open it again, look, and then say it.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        (booking.AgencyAgrees, booking.AgencyWho, booking.AgencyAt) = (form.Agency == "yes", who, now);
        var deed = form.Agency == "yes" ? BookingDeed.AgencyAgreed : BookingDeed.AgencyRefused;
        db.BookingActs.Add(BookingActs.New(booking.Id, user, deed, now, string.Join(": ", new[] { who, note }.Where(t => t is not null)) is { Length: > 0 } told ? told : null));
        await db.SaveChangesAsync(cancel);
        return new Notice(true, form.Agency == "yes" ? "Kept: the agency agrees." : "Kept: the agency says no. Move the booking or cancel it.");
    }

    private async Task<Notice?> TryCancelAsync(CurrentUser user, Guid bookingId, BookingForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var booking = await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == bookingId, cancel);
        if (booking is null || user.Is(Role.AgencyContact))
        {
            return new Notice(false, "There is no such booking among those you may cancel. Nothing was changed.");
        }

        if (booking.State == BookingState.Cancelled)
        {
            return new Notice(true, "This booking was cancelled already.");
        }

        var typed = new TypedFields(refuse);
        var because = typed.Name(nameof(form.Because), form.Because, "Say why in a few words, such as “high water”.");
        if (await db.Releases.AnyAsync(r => r.BookingId == bookingId && r.WithdrawnAt == null, cancel))
        {
            typed.Refuse("", "Fish were let go on this booking, so it cannot be cancelled. Take the release back first if it was entered by mistake.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        booking.State = BookingState.Cancelled;
        (booking.AgencyAgrees, booking.AgencyWho, booking.AgencyAt) = (null, null, null);
        (booking.SiteId, booking.On, booking.Part, booking.PermitId) = (null, null, null, null);
        db.RemoveRange(await db.BookingHolds.Where(h => h.BookingId == bookingId).ToListAsync(cancel));
        db.BookingActs.Add(BookingActs.New(bookingId, user, BookingDeed.Cancelled, now, because));
        await db.SaveChangesAsync(cancel);
        return new Notice(true, "Cancelled. Place, rooms and helpers are free again; the history stays, and it can be asked for again.");
    }
}
