using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;

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

    private static string Headline(BookingSeen it) => it.Booking switch
    {
        { Slot: { } slot } => $"{it.School.Name}: {BookingWords.When(slot)}.",
        { State: BookingState.Cancelled } => $"{it.School.Name}: cancelled.",
        _ => $"{it.School.Name} asks for a release day.",
    };

    private string PermitOf(BookingSeen it)
    {
        var use = hand!.Permits.FirstOrDefault(p => p.Permit.Id == it.Booking.PermitId);
        return use is null ? "not chosen" : $"{use.Permit.Number}: {SpeciesCodes.CommonName(use.Permit.Species)}, {Figures.Of(use.Left)} of {Figures.Of(use.Permit.Fish)} left";
    }

    private string AgencyLine(BookingSeen it) => it.Booking.AgencyAt is { } at
        ? $"{(it.Booking.AgencyAgrees == true ? "agrees" : "says no")}, {(it.Booking.AgencyWho is { } who && !IsAgency ? $"{who}, " : "")}{hand!.Season.Day(at)}"
        : "not heard yet";

    private static string Fish(BookedTank tank) => $"{tank.Tank.Code}: {(tank.Lot is { } lot ? $"{Figures.Of(tank.Fish)} {SpeciesCodes.CommonName(lot.Species)} by the ledger" : "nothing received")}";

    /// <summary>Whether a choice can be settled as things are.</summary>
    private string Stands(BookingSeen it, BookingChoice choice)
    {
        var clashes = hand!.ClashesOf(it, choice.Slot, []);
        if (clashes.Count > 0)
        {
            return hand.Tell(clashes, choice.Slot);
        }

        return hand.Permits.Any(p => hand.Against(it, p, choice.Slot).Count == 0) ? "free." : "free, but no permit covers it.";
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
