using System.Data.Common;
using System.Diagnostics;
using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Installation;

/// <summary>What is known of this portal; of the database nothing when it does not answer.</summary>
/// <param name="Memory">What the process holds, bytes.</param>
/// <param name="Size">Of the whole database, bytes.</param>
/// <param name="Unjudged">Stored and not judged yet. More than a few for more than a minute means that the judge does not keep up.</param>
public sealed record FactsNow(string Version, TimeSpan Runs, long Memory, int OpenPages, DatabaseKind Kind, long? Size, int? Unjudged);

public sealed class InstallationFacts(IDbContextFactory<HatcheryDb> databases, DatabaseChoice database, OpenPages pages, TimeProvider time)
{
    public async Task<FactsNow> NowAsync(CancellationToken cancel)
    {
        var (size, unjudged) = await OfDatabaseAsync(cancel);
        using var process = Process.GetCurrentProcess();
        return new FactsNow(
            Version,
            time.GetUtcNow().UtcDateTime - process.StartTime.ToUniversalTime(), process.WorkingSet64, pages.Count, database.Kind, size, unjudged);
    }

    /// <summary>With the first signs of the commit that it was built from.</summary>
    private static string Version => typeof(InstallationFacts).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+') switch
    {
        [var number, { Length: > 7 } commit] => $"{number} ({commit[..8]})",
        [var number, ..] => number,
        _ => "?",
    };

    private async Task<(long? Size, int? Unjudged)> OfDatabaseAsync(CancellationToken cancel)
    {
        try
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            return (await DatabaseSize.AskAsync(db, cancel), await db.UnjudgedFacts.CountAsync(cancel));
        }
        catch (Exception e) when (e is DbException or InvalidOperationException)
        {
            return (null, null);
        }
    }
}
