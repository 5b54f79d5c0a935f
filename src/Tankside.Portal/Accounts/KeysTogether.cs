using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts;

/// <summary>
/// The keys of programs that knock at the same time, in one look-up. Nothing is remembered: each is looked up after it came, so a key that is
/// revoked opens nothing from then on.
/// </summary>
public sealed class KeysTogether(IDbContextFactory<HatcheryDb> databases) : Together<string, KeysTogether.Known?>
{
    /// <summary>Null for a key that there is not.</summary>
    /// <param name="hash">As it is kept (<see cref="Secrets.Hash"/>).</param>
    public Task<Known?> FindAsync(string hash) => SendAsync(hash);

    protected override async Task<IReadOnlyList<Known?>> TakeAsync(IReadOnlyList<string> batch)
    {
        var hashes = batch.Distinct().ToList();
        await using var db = await databases.CreateDbContextAsync();
        var known = await db.ApiKeys.AsNoTracking().Where(k => hashes.Contains(k.SecretHash))
            .Join(db.Programmes, k => k.ProgrammeId, p => p.Id, (k, p) => new Known(k, p.TimeZone)).ToDictionaryAsync(k => k.Key.SecretHash);
        return [.. batch.Select(known.GetValueOrDefault)];
    }

    /// <summary>A key as it is now, and the time zone of its programme.</summary>
    public sealed record Known(ApiKey Key, string TimeZone);
}
