using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>One booking: what is settled, what the agency says, and how it came to be. The agency reads no names and no notes.</summary>
public sealed partial class BookingPage(BookingBoard board, BookingHistory history, ChangeBooking change) : SheetPage<BookingForm>
{
    private BookingsAtHand? hand;
    private BookingSeen? seen;
    private IReadOnlyList<ToldAct> acts = [];

    [Parameter]
    public Guid BookingId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool IsAgency => Asking.Is(Role.AgencyContact);

    private bool MayArrange => Asking.Is(Role.Coordinator, Role.ProgrammeLead);

    private bool MaySayAgency => seen!.Booking.State == BookingState.Settled && (IsAgency || MayArrange);

    private string Self => $"/releases/bookings/{BookingId}#notice";

    protected override async Task LoadAsync()
    {
        hand = await board.LoadAsync(Asking, Http.RequestAborted);
        seen = hand.Find(BookingId);
        if (seen is null)
        {
            Navigation.NotFound();
            return;
        }

        acts = IsAgency ? [] : await history.OfAsync(BookingId, Http.RequestAborted);
        if (!IsPost)
        {
            Input.Version = seen.Booking.Version;
        }
    }

    private string Headline(BookingSeen it) => it.Booking switch
    {
        { Slot: { } slot } => $"{it.School.Name}: {BookingWords.When(slot, Say)}.",
        { State: BookingState.Cancelled } => Say.Of("{0}: cancelled.", it.School.Name),
        _ => Say.Of("{0} asks for a release day.", it.School.Name),
    };

    private string PermitOf(BookingSeen it)
    {
        var use = hand!.Permits.FirstOrDefault(p => p.Permit.Id == it.Booking.PermitId);
        return use is null ? Say["not chosen"] : Say.Of("{0}: {1}, {2} of {3} left", use.Permit.Number, SpokenFish.Of(use.Permit.Species, Say), Figures.Of(use.Left), Figures.Of(use.Permit.Fish));
    }

    private string AgencyLine(BookingSeen it) => it.Booking.AgencyAt is { } at
        ? $"{(it.Booking.AgencyAgrees == true ? Say["agrees"] : Say["says no"])}, {(it.Booking.AgencyWho is { } who && !IsAgency ? $"{who}, " : "")}{hand!.Season.Day(at)}"
        : Say["not heard yet"];

    private string Fish(BookedTank tank) => $"{tank.Tank.Code}: {(tank.Lot is { } lot ? Say.Of("{0} {1} by the ledger", Figures.Of(tank.Fish), SpokenFish.Of(lot.Species, Say)) : Say["nothing received"])}";

    /// <summary>Whether a choice can be settled as things are.</summary>
    private string Stands(BookingSeen it, BookingChoice choice)
    {
        var clashes = hand!.ClashesOf(it, choice.Slot, []);
        if (clashes.Count > 0)
        {
            return hand.Tell(clashes, choice.Slot);
        }

        return hand.Permits.Any(p => hand.Against(it, p, choice.Slot).Count == 0) ? Say["free."] : Say["free, but no permit covers it."];
    }

    private async Task HearAsync() => Done(await change.HearAgencyAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private async Task CancelAsync() => Done(await change.CancelAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private void Done(Notice? notice)
    {
        if (notice is not null)
        {
            Leave(Self, notice);
        }
    }
}
