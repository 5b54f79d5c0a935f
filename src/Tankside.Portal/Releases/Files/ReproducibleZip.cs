using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Releases.Files;

/// <summary>Packs a zip anew with one given time in place of the clock's, so that equal contents are equal bytes.</summary>
public static partial class ReproducibleZip
{
    /// <summary>The earliest that a zip can say; it counts every second second.</summary>
    private static readonly DateTime Earliest = new(1980, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    /// <summary>A nameless file that is gone when it is closed.</summary>
    public static FileStream Draft() => new(
        Path.Combine(Path.GetTempPath(), Path.GetRandomFileName()), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 64 * 1024,
        FileOptions.DeleteOnClose | FileOptions.Asynchronous);

    public static async Task RepackAsync(Stream from, Stream to, DateTime time, CancellationToken cancel)
    {
        from.Position = 0;
        await using var read = await ZipArchive.CreateAsync(from, ZipArchiveMode.Read, leaveOpen: true, entryNameEncoding: null, cancel);
        await using var written = await ZipArchive.CreateAsync(to, ZipArchiveMode.Create, leaveOpen: true, entryNameEncoding: null, cancel);
        foreach (var entry in read.Entries)
        {
            var copy = written.CreateEntry(entry.FullName, CompressionLevel.Optimal);
            copy.LastWriteTime = new DateTimeOffset(time < Earliest ? Earliest : time, TimeSpan.Zero);
            await using var source = await entry.OpenAsync(cancel);
            await using var target = await copy.OpenAsync(cancel);
            if (entry.FullName == "docProps/core.xml")
            {
                using var text = new StreamReader(source, Encoding.UTF8);
                var said = Moment().Replace(await text.ReadToEndAsync(cancel), time.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
                await target.WriteAsync(Encoding.UTF8.GetBytes(said), cancel);
            }
            else
            {
                await source.CopyToAsync(target, cancel);
            }
        }
    }

    /// <summary>When a spreadsheet says it was made.</summary>
    [GeneratedRegex(@"(?<=<dcterms:created[^>]*>)[^<]*(?=<)")]
    private static partial Regex Moment();
}
