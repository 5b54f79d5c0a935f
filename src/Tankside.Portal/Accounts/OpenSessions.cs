using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Accounts;

/// <summary>
/// The sessions that are open, a row each. A session is looked at once a minute, together with its person's stamp; between two looks its cookie
/// is believed, unless it was ended at this very portal.
/// </summary>
public sealed class OpenSessions(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Longer than a cookie that nobody uses is good for (<see cref="AccountsFeature"/>), by the hour that the last use may be late, and more.</summary>
    private static readonly TimeSpan Idle = TimeSpan.FromDays(15), NotedEvery = TimeSpan.FromHours(1);

    private readonly ConcurrentDictionary<Guid, DateTimeOffset> justEnded = new();

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    /// <param name="instead">The session that was open in the same browser until now.</param>
    public async Task<Guid> BeginAsync(Person person, string? userAgent, Guid? instead)
    {
        var (browser, system) = BrowserWords.Of(userAgent);
        await using var db = await databases.CreateDbContextAsync();
        await db.OpenSessions.Where(s => s.Id == instead || (s.PersonId == person.Id && s.Stamp != person.SecurityStamp)).ExecuteDeleteAsync();
        var session = new OpenSession { Id = Guid.NewGuid(), PersonId = person.Id, Stamp = person.SecurityStamp!, BeganAt = Now, LastUsedAt = Now, Browser = browser, System = system };
        db.Add(session);
        await db.SaveChangesAsync();
        return session.Id;
    }

    /// <summary>Lets a session go on after its person changed what ends all the others. One that was ended meanwhile stays ended.</summary>
    public async Task RenewAsync(Guid id, Person person)
    {
        await using var db = await databases.CreateDbContextAsync();
        await db.OpenSessions.Where(s => s.Id == id && s.PersonId == person.Id && s.Stamp != person.SecurityStamp)
            .ExecuteUpdateAsync(set => set.SetProperty(s => s.Stamp, person.SecurityStamp!));
    }

    /// <summary>Whether it is still open; that it is used is noted once an hour.</summary>
    public async Task<bool> HoldsAsync(Guid id, Person person)
    {
        var now = Now;
        await using var db = await databases.CreateDbContextAsync();
        var open = db.OpenSessions.Where(s => s.Id == id && s.PersonId == person.Id && s.Stamp == person.SecurityStamp);
        if (await open.Select(s => (DateTime?)s.LastUsedAt).SingleOrDefaultAsync() is not { } used)
        {
            return false;
        }

        if (now - used >= NotedEvery)
        {
            await open.ExecuteUpdateAsync(set => set.SetProperty(s => s.LastUsedAt, now));
        }

        return true;
    }

    /// <summary>Ended here a moment ago: nobody has to wait for the next look.</summary>
    public bool IsJustEnded(Guid id) => justEnded.ContainsKey(id);

    /// <summary>Those that are open, the one used last first.</summary>
    public async Task<IReadOnlyList<OpenSession>> OfAsync(Person person, CancellationToken cancel)
    {
        var since = Now - Idle;
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.OpenSessions.AsNoTracking().Where(s => s.PersonId == person.Id && s.Stamp == person.SecurityStamp && s.LastUsedAt > since)
            .OrderByDescending(s => s.LastUsedAt).ThenByDescending(s => s.BeganAt).ToListAsync(cancel);
    }

    /// <summary>How many were ended.</summary>
    public async Task<int> EndAsync(Guid personId, params IReadOnlyCollection<Guid> ids)
    {
        await using var db = await databases.CreateDbContextAsync();
        var ended = await db.OpenSessions.Where(s => s.PersonId == personId && ids.Contains(s.Id)).ExecuteDeleteAsync();
        var now = time.GetUtcNow();
        foreach (var (id, _) in justEnded.Where(e => now - e.Value > 2 * Sessions.CheckEvery))
        {
            justEnded.TryRemove(id, out _);
        }

        foreach (var id in ids)
        {
            justEnded[id] = now;
        }

        return ended;
    }

    /// <summary>Takes away the rows of sessions that are over by themselves.</summary>
    public async Task ForgetOldAsync(CancellationToken cancel)
    {
        var (idle, old) = (Now - Idle, Now - Sessions.Longest);
        await using var db = await databases.CreateDbContextAsync(cancel);
        await db.OpenSessions.Where(s => s.LastUsedAt < idle || s.BeganAt < old).ExecuteDeleteAsync(cancel);
    }
}
