namespace Tankside.Hatchery.People;

/// <summary>
/// How long what nobody needs any more is kept, days. Readings, the fish ledger, releases, flags and kit acts are the programme's account and are not
/// among them. All judgement, no source: a law, the district or the agency may ask for more or for less.
/// </summary>
public static class Keeping
{
    /// <summary>Mails that were sent, kept as a file or given up.</summary>
    public static readonly (string Key, double Default) Letters = ("keep.letters", 400);

    /// <summary>Photos of a tank, from the day they came.</summary>
    public static readonly (string Key, double Default) Photos = ("keep.photos", 800);

    /// <summary>Sheets that were looked at and never stored.</summary>
    public static readonly (string Key, double Default) Sheets = ("keep.sheets", 30);

    /// <summary>Words that somebody was typing and never used.</summary>
    public static readonly (string Key, double Default) Drafts = ("keep.drafts", 30);

    /// <summary>Invitations that were accepted, withdrawn or ran out.</summary>
    public static readonly (string Key, double Default) Invitations = ("keep.invitations", 90);

    /// <summary>Lines of the record of changes.</summary>
    public static readonly (string Key, double Default) Changes = ("keep.changes", 2000);

    public static IReadOnlyList<(string Key, double Default)> All { get; } = [Letters, Photos, Sheets, Drafts, Invitations, Changes];

    /// <summary>The moment before which something is let go.</summary>
    public static DateTime Before(DateTime now, double days) => now.AddDays(-days);
}
