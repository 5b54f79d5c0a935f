using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Sealing;

/// <summary>One seal of a season, in force or broken, with the names of who did it.</summary>
public sealed record ListedSeal(SeasonSeal Seal, string By, string? ReopenedBy);

/// <summary>What a lead looks at before and after closing a season.</summary>
/// <param name="Now">The account as the ledger stands.</param>
/// <param name="Checksum">Of its CSV file.</param>
/// <param name="Sealed">The account under the seal in force.</param>
/// <param name="Against">Why it cannot be closed.</param>
/// <param name="EnteredSince">Lines that came after the seal in force, such as with a late reading.</param>
/// <param name="Unreported">Releases whose report has not gone to the agency.</param>
public sealed record SealDesk(
    SeasonTotals Now, string Checksum, SeasonTotals? Sealed, IReadOnlyList<SealRefusal> Against, IReadOnlyList<ListedSeal> History, ProgrammeClock Clock,
    int EnteredSince, int Unreported)
{
    /// <summary>False when what is kept no longer gives the file that was sealed.</summary>
    public bool SealHolds => Sealed is null || SealedAccount.Checksum(Sealed) == Sealed.Seal!.Checksum;
}

public sealed class SeasonSeals(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null when there is no such season.</summary>
    public async Task<SealDesk?> LoadAsync(Guid programmeId, string? name, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        if (await TotalsOfSeason.FindAsync(db, programmeId, name, clock.Day(time.GetUtcNow().UtcDateTime), cancel) is not { } season)
        {
            return null;
        }

        var totals = await SeasonFold.LoadAsync(db, programme, season, null, cancel);
        var seals = await db.SeasonSeals.AsNoTracking().Where(s => s.SeasonId == season.Id).OrderByDescending(s => s.SealedAt).ToListAsync(cancel);
        var people = seals.SelectMany(s => new[] { s.SealedBy, s.ReopenedBy ?? s.SealedBy }).Distinct().ToList();
        var names = await db.Users.Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var inForce = seals.SingleOrDefault(s => s.ReopenedAt is null);
        return new SealDesk(
            totals, SealedAccount.Checksum(totals), inForce is null ? null : SealedAccount.Unpack(inForce), [.. SealRules.Check(totals)],
            [.. seals.Select(s => new ListedSeal(s, NameOf(s.SealedBy), s.ReopenedBy is { } by ? NameOf(by) : null))], clock,
            inForce is null ? 0 : await db.Ledger.CountAsync(e => e.SeasonId == season.Id && e.EnteredAt > inForce.SealedAt, cancel),
            totals.Releases.Count(r => r.ReportedOn is null));

        string NameOf(Guid person) => names.GetValueOrDefault(person) ?? "somebody who has left";
    }
}
