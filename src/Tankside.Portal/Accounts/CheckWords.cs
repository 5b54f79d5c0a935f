using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace Tankside.Portal.Accounts;

/// <summary>What a check looks at, and what to do when it does not find it well.</summary>
/// <param name="Name">As it stands in a sentence.</param>
/// <param name="Todo">What it means for the programme, and what whoever runs the server does.</param>
public sealed record CheckWords(string Name, string Todo)
{
    private static readonly Dictionary<string, CheckWords> All = new(StringComparer.Ordinal)
    {
        ["database"] = new("database", "No reading can be stored: forms wait on the classes' devices, loggers send again. Start the database; where its schema is older than the program, stop the portals and run migrate."),
        ["sweep"] = new("judging of all tanks", "Calls that come with the clock, such as a tank that went silent, are late. Ring round the tanks that worry you. Start the portal again; the log says what failed."),
        ["letters"] = new("letters", "Morning mails and urgent ones may not have arrived. See below which; the command doctor tries the mail server."),
        ["disk"] = new("room on the disk", "A full disk refuses every reading. Move old backups and logs elsewhere or rent more room, before it is full."),
        ["clock"] = new("clock", "Readings get wrong times, and calls come early or late. Have both machines set their clocks by the network."),
        ["backup"] = new("backup", "What is lost now is lost since the newest backup. Make one today by the command backup, then look why the night's failed."),
        ["replica"] = new("second database", "Where each saving waits for it nothing can be saved while it is away; elsewhere what was taken last is lost if the first one falls now. Start the one that is silent, or take it out of what is waited for; where two say they are the primary, stop the old one at once."),
    };

    /// <summary>Goes with a check that found nothing wrong because nobody told it where to look.</summary>
    public static IReadOnlyDictionary<string, object> NotLookedAt { get; } = new Dictionary<string, object> { [nameof(NotLookedAt)] = true };

    public static bool IsLookedAt(HealthReportEntry entry) => !entry.Data.ContainsKey(nameof(NotLookedAt));

    /// <summary>The worst first, then in the order in which they matter.</summary>
    public static IEnumerable<KeyValuePair<string, HealthReportEntry>> InOrder(HealthReport report) =>
        report.Entries.OrderBy(e => e.Value.Status).ThenBy(e => All.Keys.ToList().IndexOf(e.Key));

    public static CheckWords Of(string check) => All.GetValueOrDefault(check) ?? new CheckWords(check, "");

    /// <summary>What needs somebody, the worst first.</summary>
    public static IReadOnlyList<string> Troubles(HealthReport? report) => report is null ? []
        : [.. InOrder(report).Where(e => e.Value.Status != HealthStatus.Healthy).Select(e => Of(e.Key).Name)];
}
