using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Bookings;

/// <summary>Lines of a booking's history.</summary>
internal static class BookingActs
{
    private const int Longest = TypedFields.LongestText;

    public static BookingAct New(Guid bookingId, CurrentUser user, BookingDeed deed, DateTime at, string? note) => new()
    {
        Id = Guid.CreateVersion7(new DateTimeOffset(at)),
        BookingId = bookingId,
        At = at,
        By = user.PersonId,
        Deed = deed,
        Note = note is { Length: > Longest } ? note[..Longest] : note,
    };
}
