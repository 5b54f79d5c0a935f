using System.Globalization;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Commands.Backups;

/// <summary>The backups of a folder, each named after its time, and which of them are old enough to go.</summary>
public static partial class KeptBackups
{
    private const string TimeFormat = "yyyyMMdd'T'HHmmss'Z'";

    public static string NameAt(DateTime at) => FormattableString.Invariant($"tankside-{at.ToString(TimeFormat, CultureInfo.InvariantCulture)}.zip");

    /// <summary>The files that have such a name, the newest first.</summary>
    public static IReadOnlyList<(string File, DateTime At)> In(string folder) =>
    [
        .. Directory.EnumerateFiles(folder).Select(file => (File: file, At: TimeOf(Path.GetFileName(file))))
            .Where(f => f.At is not null).Select(f => (f.File, f.At!.Value)).OrderByDescending(f => f.Item2),
    ];

    /// <summary>
    /// Deletes what is older than so many days. Only what this program wrote, which it looks for inside the file and not by the name alone;
    /// never the newest, which was just read back.
    /// </summary>
    public static async Task<int> DropOldAsync(string folder, DateTime before, CancellationToken cancel)
    {
        var dropped = 0;
        foreach (var (file, at) in In(folder).Skip(1).Where(f => f.At < before))
        {
            if (await BackupFile.AboutAsync(file, cancel) is not null)
            {
                File.Delete(file);
                dropped++;
            }
        }

        return dropped;
    }

    /// <summary>The newest that says it is a backup; null when there is none.</summary>
    public static async Task<(string File, BackupAbout About)?> NewestAsync(string folder, CancellationToken cancel)
    {
        foreach (var (file, _) in In(folder))
        {
            if (await BackupFile.AboutAsync(file, cancel) is { } about)
            {
                return (file, about);
            }
        }

        return null;
    }

    private static DateTime? TimeOf(string name) =>
        Name().Match(name) is { Success: true } match
        && DateTime.TryParseExact(match.Groups[1].ValueSpan, TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal | DateTimeStyles.AssumeUniversal, out var at) ? at : null;

    [GeneratedRegex(@"^tankside-(\d{8}T\d{6}Z)\.zip$")]
    private static partial Regex Name();
}
