using System.Globalization;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Shell;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>How bookings are told.</summary>
public static class BookingWords
{
    public static string Of(DayPart part) => part switch
    {
        DayPart.Morning => "morning",
        DayPart.Afternoon => "afternoon",
    };

    public static string Day(DateOnly day, Say? say = null) => day.ToString("ddd d MMM yyyy", say is { IsSpanish: true } ? say.Culture : CultureInfo.InvariantCulture);

    /// <summary>"Tue 20 Apr 2027, morning".</summary>
    public static string When(DateOnly day, DayPart part, Say? say = null) => $"{Day(day, say)}, {(say ?? Say.InEnglish)[Of(part)]}";

    public static string When(Slot slot, Say? say = null) => When(slot.On, slot.Part, say);

    public static string Of(BookingState state) => state switch
    {
        BookingState.Asked => "asked for",
        BookingState.Settled => "settled",
        BookingState.Cancelled => "cancelled",
    };

    public static string Agency(ReleaseBooking booking) => booking switch
    {
        { State: not BookingState.Settled } => "",
        { AgencyAgrees: true } => "agency agrees",
        { AgencyAgrees: false } => "agency says no",
        _ => "agency not heard yet",
    };

    public static string Of(BookingDeed deed) => deed switch
    {
        BookingDeed.Asked => "Asked for",
        BookingDeed.Changed => "Changed",
        BookingDeed.Settled => "Settled",
        BookingDeed.AgencyAgreed => "The agency agrees",
        BookingDeed.AgencyRefused => "The agency says no",
        BookingDeed.Cancelled => "Cancelled",
        BookingDeed.AskedAgain => "Asked for again",
    };

    /// <summary>Who comes: "28 people, 1 bus".</summary>
    public static string Party(ReleaseBooking booking, Say? reader = null) => (reader ?? Say.InEnglish) is var say && booking.Buses == 0
        ? $"{say.Count(booking.Visitors, "{0} person", "{0} people")}, {say["no bus"]}"
        : $"{say.Count(booking.Visitors, "{0} person", "{0} people")}, {say.Count(booking.Buses, "{0} bus", "{0} buses")}";

    /// <summary>Why a booking cannot be settled on this permit and day, and what to do about it.</summary>
    public static string Word(BookingRefusal why, Permit permit, ReleaseSite site, DateOnly? heldUntil) => why switch
    {
        BookingRefusal.DayIsPast => "This day is over. Choose one to come.",
        BookingRefusal.WrongWater => $"Permit {permit.Number} is for {permit.Water}, and {site.Name} is on {site.Water}. Choose the site or the permit that fits.",
        BookingRefusal.WrongSpecies => $"Permit {permit.Number} is for {SpeciesCodes.CommonName(permit.Species)}, and other fish are in these tanks. Choose the permit for them.",
        BookingRefusal.OutOfSeason => $"Permit {permit.Number} covers {SeasonAtHand.Day(permit.From)} to {SeasonAtHand.Day(permit.To)}. Choose a day of it or another permit.",
        BookingRefusal.PastHoldLimit =>
            $"Permit {permit.Number} lets these fish be held {Figures.Of(permit.HoldDays ?? 0, "day", "days")} from delivery, until {SeasonAtHand.Day(heldUntil!.Value)}. Choose an earlier day, or ask the agency.",
        BookingRefusal.PermitUsedUp => $"Permit {permit.Number} is used up. Choose another, or ask the agency.",
        BookingRefusal.NilReported => $"The agency was told that nothing was released on permit {permit.Number}. Choose another permit.",
    };

    /// <summary>What stands in the way at a site, or of a room or a helper that is named before.</summary>
    public static string Word(ClashKind kind, ReleaseSite site) => kind switch
    {
        ClashKind.SiteFull => $"{site.Name} has room for {Figures.Of(site.MostVisitors ?? 0, "person", "people")} at once.",
        ClashKind.NoRoomForBuses => $"At {site.Name} {(site.MostBuses is 0 ? "no bus can stand" : $"{Figures.Of(site.MostBuses ?? 0, "bus", "buses")} can stand at once")}.",
        ClashKind.SiteTaken => $"{site.Name} takes one school at a time, because nobody has said how many have room there.",
        ClashKind.RoomElsewhere => "is at another release then.",
        ClashKind.HelperElsewhere => "helps at another release then.",
    };
}
