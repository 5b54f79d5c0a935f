namespace Tankside.Hatchery.Digests;

/// <summary>Whom an announcement is for.</summary>
public enum Audience
{
    Teachers,
    TeachersOfSchools,
    TeachersOfArea,

    /// <summary>Teachers whose tanks hold eggs or fish of a lot, or are to get some.</summary>
    TeachersOfLot,
    TeachersOfStage,
    KitHands,

    /// <summary>Everybody in the programme except agency contacts.</summary>
    Everybody,
}

/// <summary>Words to many people, each of whom gets a letter of their own. It is written once; only taking it back changes it.</summary>
public sealed class Announcement
{
    public const int LongestSubject = 150, LongestText = 8000;

    /// <summary>How long it can be taken back before the first letter goes.</summary>
    public static readonly TimeSpan Grace = TimeSpan.FromMinutes(10);

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Audience Audience { get; init; }

    /// <summary>The audience in words, as it was shown when it was written.</summary>
    public required string For { get; init; }

    /// <summary>Subject and text with their placeholders; a language is empty in both or in neither.</summary>
    public required string SubjectEn { get; init; }

    public required string TextEn { get; init; }

    public required string SubjectEs { get; init; }

    public required string TextEs { get; init; }

    public DateTime WrittenAt { get; init; }

    public Guid WrittenBy { get; init; }

    /// <summary>Not before this instant, and for each person not in their quiet hours.</summary>
    public DateTime GoesAt { get; init; }

    public DateTime? TakenBackAt { get; set; }

    public Guid? TakenBackBy { get; set; }

    public int Version { get; set; }
}

/// <summary>Why somebody of the audience gets no letter.</summary>
public enum WhyNoLetter
{
    /// <summary>They have left the announcements.</summary>
    Left,

    NoAddress,

    /// <summary>A made-up person of the demo season, whom no mail server is bothered with.</summary>
    MadeUp,
}

/// <summary>Somebody of an announcement's audience.</summary>
public sealed class AnnouncementReader
{
    public Guid AnnouncementId { get; init; }

    public Guid PersonId { get; init; }

    /// <summary>Null for whom a letter was written.</summary>
    public WhyNoLetter? Without { get; init; }
}

/// <summary>A text to begin an announcement with: the programme's own, or its wording of one that is shipped.</summary>
public sealed class OwnTemplate
{
    public const int LongestName = 80;

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    /// <summary>The key of the shipped text that this stands for; null for one of the programme's own.</summary>
    public string? Shipped { get; init; }

    public required string Name { get; set; }

    public required string SubjectEn { get; set; }

    public required string TextEn { get; set; }

    public required string SubjectEs { get; set; }

    public required string TextEs { get; set; }

    public DateTime ChangedAt { get; set; }

    public Guid ChangedBy { get; set; }

    public int Version { get; set; }
}
