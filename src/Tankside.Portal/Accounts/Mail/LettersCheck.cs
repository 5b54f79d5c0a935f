using System.Data.Common;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Hatchery.People;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>How the letters of the last days fared.</summary>
/// <param name="Late">They should have gone half an hour ago and more.</param>
/// <param name="Unsure">Nobody can say whether they went.</param>
/// <param name="GivenUp">The mail server did not take them for a day.</param>
public sealed record LetterCounts(int Late, int Unsure, int GivenUp)
{
    private static readonly TimeSpan Lateness = TimeSpan.FromMinutes(30), Days = TimeSpan.FromDays(3);

    public bool Good => Late + Unsure + GivenUp == 0;

    public static async Task<LetterCounts> LoadAsync(HatcheryDb db, DateTime now, CancellationToken cancel)
    {
        var (since, late) = (now - Days, now - Lateness);
        var letters = db.OutgoingLetters.Where(l => l.WrittenAt > since);
        return new LetterCounts(
            await letters.CountAsync(l => l.State == LetterState.Waiting && (l.NotBefore < late || l.Attempts > 2), cancel),
            await letters.CountAsync(l => l.State == LetterState.Unsure, cancel),
            await letters.CountAsync(l => l.State == LetterState.GivenUp && !(l.Trouble ?? "").StartsWith(LetterTroubles.NotNeeded), cancel));
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Late} late, {Unsure} unsure, {GivenUp} given up");
}

/// <summary>Letters that do not arrive make a portal poorer, not unready: it says "degraded" and goes on.</summary>
internal sealed class LettersCheck(IDbContextFactory<HatcheryDb> databases, TimeProvider time) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            await using var db = await databases.CreateDbContextAsync(cancellationToken);
            var counts = await LetterCounts.LoadAsync(db, time.GetUtcNow().UtcDateTime, cancellationToken);
            return new HealthCheckResult(counts.Good ? HealthStatus.Healthy : HealthStatus.Degraded, $"{counts} in the last three days");
        }
        catch (Exception e) when (e is DbException or InvalidOperationException)
        {
            return HealthCheckResult.Degraded("the letters could not be counted", e);
        }
    }
}
