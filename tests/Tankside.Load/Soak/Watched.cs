using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Load.Faults;
using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Soak;

/// <summary>Looks at a portal's process from outside.</summary>
public sealed class Watched(ServedPortal portal, Uri metrics, TrafficPlace place, PostgresAlone? server, string name)
{
    private const double MiB = 1024 * 1024;

    public int Id => portal.Id;

    public async Task<Sample> LookAsync(double hour)
    {
        await using var db = place.OpenDb();
        return new Sample(
            hour, Status("VmRSS:") / 1024.0, await HeapAsync() / MiB, Directory.GetFileSystemEntries($"/proc/{portal.Id}/fd").Length, (int)Status("Threads:"),
            server is null ? FilesOf(db) : await server.ConnectionsAsync(),
            (server is null ? new FileInfo(SqliteCopy.FileOf(place.Database)).Length : await server.SizeAsync(name)) / MiB,
            await db.Readings.LongCountAsync());
    }

    /// <summary>On an embedded database a connection is an open file.</summary>
    private long FilesOf(HatcheryDb db)
    {
        var file = Path.GetFileName(db.Database.GetDbConnection().DataSource);
        return Directory.GetFileSystemEntries($"/proc/{portal.Id}/fd").Count(f => File.ResolveLinkTarget(f, returnFinalTarget: false)?.Name == file);
    }

    private long Status(string line) => long.Parse(
        File.ReadLines($"/proc/{portal.Id}/status").First(l => l.StartsWith(line, StringComparison.Ordinal))[line.Length..].Trim().Split(' ')[0], CultureInfo.InvariantCulture);

    /// <summary>What the last collection left.</summary>
    private async Task<double> HeapAsync()
    {
        using var client = new HttpClient();
        return (await client.GetStringAsync(metrics)).Split('\n').Where(l => l.StartsWith("dotnet_gc_last_collection_heap_size", StringComparison.Ordinal))
            .Sum(l => double.Parse(l[(l.IndexOf('}') + 1)..].Trim().Split(' ')[0], CultureInfo.InvariantCulture));
    }
}
