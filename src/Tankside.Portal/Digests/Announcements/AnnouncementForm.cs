namespace Tankside.Portal.Digests.Announcements;

public sealed class AnnouncementForm
{
    public const string Send = "send", Look = "look";

    /// <summary>Made when the page is first shown, so that the form sent twice is one announcement.</summary>
    public Guid Id { get; set; }

    public string? Audience { get; set; }

    /// <summary>Null when none was ticked.</summary>
    public List<Guid>? Schools { get; set; }

    public string? Area { get; set; }

    public string? Lot { get; set; }

    public string? Stage { get; set; }

    public string? SubjectEn { get; set; }

    public string? TextEn { get; set; }

    public string? SubjectEs { get; set; }

    public string? TextEs { get; set; }

    /// <summary>Local time of the programme; empty for now.</summary>
    public string? At { get; set; }

    /// <summary>The two readers whose letters are shown.</summary>
    public string? First { get; set; }

    public string? Second { get; set; }

    /// <summary>The mark of what was looked at last: nothing is sent that was not shown.</summary>
    public string? Seen { get; set; }

    /// <summary>The button that was pressed.</summary>
    public string? Do { get; set; }
}
