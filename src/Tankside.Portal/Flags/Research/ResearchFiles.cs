using System.IO.Compression;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Research;

/// <summary>
/// A season for those who study it: tanks, ledger, readings and flags as CSV in one zip. No person, school, room, place or tank code is
/// named, and no note goes along, because people write names into notes; tanks and schools have numbers of this file alone.
/// </summary>
public sealed class ResearchFiles(Replica replica)
{
    private const string About = """
        One season of a school fish-hatchery programme, without anything about a person.
        tanks.csv     one row a tank; tank and school are numbers of this file, the same in all of its tables
        ledger.csv    every line of the fish ledger; a correction is a line of its own that names the one it takes back
        readings.csv  every reading that counts, corrected ones left out; empty means not looked at, which is not no and not 0
        flags.csv     every trouble that was raised at a tank, and what a person said of its cause
        Times are UTC. Temperatures are °C, concentrations mg/L, ammonia and nitrite as N. Notes, names, places and codes are left out.
        Logger and class readings stand in one table; source tells them apart.

        """;

    /// <summary>False when the programme has no such season.</summary>
    public async Task<bool> WriteAsync(Guid programmeId, string name, Stream file, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        if (await TotalsOfSeason.FindAsync(db, programmeId, name, default, cancel) is not { } season)
        {
            return false;
        }

        var tanks = await StudiedTanks.LoadAsync(db, season, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        await using var zip = await ZipArchive.CreateAsync(file, ZipArchiveMode.Create, leaveOpen: true, entryNameEncoding: null, cancel);
        await TextAsync(zip, "README.txt", season, [About], cancel);
        await TextAsync(zip, "tanks.csv", season, StudiedTanks.Header, tanks.Rows.ToAsyncEnumerable(), cancel);
        await TextAsync(zip, "ledger.csv", season, ResearchRows.LedgerHeader, ResearchRows.Ledger(db, season, tanks), cancel);
        await TextAsync(zip, "readings.csv", season, ResearchRows.ReadingsHeader, ResearchRows.Readings(db, season, clock, tanks), cancel);
        await TextAsync(zip, "flags.csv", season, ResearchRows.FlagsHeader, ResearchRows.Flags(db, season, clock, tanks), cancel);
        return true;
    }

    private static Task TextAsync(ZipArchive zip, string name, Season season, string header, IAsyncEnumerable<object?[]> rows, CancellationToken cancel) =>
        WriteAsync(zip, name, season, async text =>
        {
            await text.WriteAsync('\ufeff');
            await text.WriteAsync(header + "\r\n");
            await foreach (var row in rows.WithCancellation(cancel))
            {
                await text.WriteAsync(TotalsCsv.Line(row) + "\r\n");
            }
        }, cancel);

    private static Task TextAsync(ZipArchive zip, string name, Season season, string[] texts, CancellationToken cancel) =>
        WriteAsync(zip, name, season, text => text.WriteAsync(string.Concat(texts).ReplaceLineEndings("\r\n")), cancel);

    /// <summary>Under the season's first day and not the clock's, so that the same data are the same file.</summary>
    private static async Task WriteAsync(ZipArchive zip, string name, Season season, Func<StreamWriter, Task> write, CancellationToken cancel)
    {
        var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = new DateTimeOffset(season.StartsOn.ToDateTime(TimeOnly.MinValue), TimeSpan.Zero);
        await using var stream = await entry.OpenAsync(cancel);
        await using var text = new StreamWriter(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        await write(text);
    }
}
