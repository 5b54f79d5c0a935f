namespace Tankside.Portal.Releases.OnTheDay;

/// <summary>What is entered on the day: ticks, a count, which count stands, or the release itself.</summary>
public sealed class DayForm
{
    /// <summary>Made when the page is shown, so that a form sent twice is one count or one release.</summary>
    public Guid Id { get; set; }

    public string? Tank { get; set; }

    /// <summary>Points of the checklist that are ticked.</summary>
    public string[]? Ticked { get; set; }

    public int Turn { get; set; }

    public int Seat { get; set; }

    public string? Counter { get; set; }

    public string? Fish { get; set; }

    /// <summary>The count that stands.</summary>
    public Guid? Stands { get; set; }

    public string? Day { get; set; }

    public string? Time { get; set; }

    public string? TankTemperature { get; set; }

    public string? StreamTemperature { get; set; }

    public string? Unit { get; set; }

    public string? Note { get; set; }

    public bool EmptiesTank { get; set; }

    /// <summary>The full name of the adult who answers for it.</summary>
    public string? SignedAs { get; set; }
}
