namespace Tankside.Hatchery.Releases.Bookings;

public enum BookingState
{
    /// <summary>A school has named its choices.</summary>
    Asked,

    /// <summary>Site, day and part of the day are settled.</summary>
    Settled,

    Cancelled,
}

/// <summary>A class comes in the morning or in the afternoon; a whole day holds nobody at the water.</summary>
public enum DayPart
{
    Morning,
    Afternoon,
}

/// <summary>A site on a day, in a part of it.</summary>
public readonly record struct Slot(Guid SiteId, DateOnly On, DayPart Part);

/// <summary>A school's wish to let the fish of its tanks go, and what was settled about it.</summary>
public sealed class ReleaseBooking
{
    /// <summary>Choices that a school names.</summary>
    public const int Choices = 3;

    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid SchoolId { get; init; }

    public List<Guid> TankIds { get; set; } = [];

    /// <summary>Children and adults who come, as a number; who they are is never asked.</summary>
    public int Visitors { get; set; }

    public int Buses { get; set; }

    /// <summary>Adults who help beside the people of the programme who are named, as a number.</summary>
    public int OtherHelpers { get; set; }

    /// <summary>What the group needs at the water, such as a way without steps.</summary>
    public string? Needs { get; set; }

    public BookingState State { get; set; }

    /// <summary>Settled site, day and part; null until then.</summary>
    public Guid? SiteId { get; set; }

    public DateOnly? On { get; set; }

    public DayPart? Part { get; set; }

    public Guid? PermitId { get; set; }

    /// <summary>The agency's word on what is settled; null while it is awaited.</summary>
    public bool? AgencyAgrees { get; set; }

    /// <summary>Who at the agency said so, as the programme noted it; null when the agency contact said it here.</summary>
    public string? AgencyWho { get; set; }

    public DateTime? AgencyAt { get; set; }

    /// <summary>Points of the day's checklist that somebody has ticked.</summary>
    public List<string> Ticked { get; set; } = [];

    public DateTime AskedAt { get; init; }

    public Guid AskedBy { get; init; }

    public int Version { get; set; }

    public Slot? Slot => State == BookingState.Settled && SiteId is { } site && On is { } day && Part is { } part ? new Slot(site, day, part) : null;
}

/// <summary>One of a booking's choices.</summary>
public sealed class BookingChoice
{
    public Guid BookingId { get; init; }

    /// <summary>1 is liked best.</summary>
    public int Rank { get; init; }

    public Guid SiteId { get; set; }

    public DateOnly On { get; set; }

    public DayPart Part { get; set; }

    public Slot Slot => new(SiteId, On, Part);
}

/// <summary>What a settled booking keeps to itself in its part of the day.</summary>
public enum HeldKind
{
    Room,
    Helper,
}

/// <summary>A room or a helper that is at a settled booking then, and so nowhere else: the database holds each but once.</summary>
public sealed class BookingHold
{
    public Guid Id { get; init; }

    public Guid BookingId { get; init; }

    public DateOnly On { get; init; }

    public DayPart Part { get; init; }

    public HeldKind Kind { get; init; }

    /// <summary>The classroom or the person.</summary>
    public Guid HeldId { get; init; }
}

public enum BookingDeed
{
    Asked,
    Changed,
    Settled,
    AgencyAgreed,
    AgencyRefused,
    Cancelled,
    AskedAgain,
}

/// <summary>What somebody did about a booking. Acts are only ever added.</summary>
public sealed class BookingAct
{
    public Guid Id { get; init; }

    public Guid BookingId { get; init; }

    public DateTime At { get; init; }

    public Guid By { get; init; }

    public BookingDeed Deed { get; init; }

    /// <summary>What was settled, who said so, or why.</summary>
    public string? Note { get; init; }
}
