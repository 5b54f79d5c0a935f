using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>What became of a wish for a key.</summary>
public abstract record KeyOutcome
{
    /// <summary>The key itself; nobody can read it again after this.</summary>
    public sealed record Issued(string Key) : KeyOutcome;

    /// <param name="Name">It is the name that does not do; else the tanks.</param>
    public sealed record Refused(string Why, bool Name = false) : KeyOutcome;
}

/// <summary>Makes the keys of loggers and other programs, for the page and for the command.</summary>
public sealed class IssueKey(IDbContextFactory<HatcheryDb> databases, IPlaceNames places, ChangeRecorder changes, TimeProvider time, ILogger<IssueKey> log)
{
    public const int LongestName = 60;

    /// <param name="name">What uses it, so that whoever reads the list knows which one to stop.</param>
    /// <param name="tanks">Ids of the tanks it serves; null for all, also those to come.</param>
    public async Task<KeyOutcome> HandleAsync(Guid programmeId, string? name, ApiKeyRole role, IReadOnlyCollection<Guid>? tanks, CancellationToken cancel)
    {
        if (name?.Trim() is not { Length: > 0 and <= LongestName } called)
        {
            return new KeyOutcome.Refused($"Give the key a name, {LongestName} characters at most, such as “logger of Room 3”. No key was made.", Name: true);
        }

        if (tanks is { Count: 0 })
        {
            return new KeyOutcome.Refused("Choose the tanks of this key, or all of them.");
        }

        if (tanks is not null && (await places.TankCodesAsync(programmeId, tanks, cancel)).Count != tanks.Distinct().Count())
        {
            return new KeyOutcome.Refused("One of these tanks is not there any more. No key was made; please choose again.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var secret = Secrets.New();
        db.ApiKeys.Add(New(programmeId, called, role, tanks, secret));
        await db.SaveChangesAsync(cancel);
        log.LogInformation("A {Role} key was made in {Programme}", role, programmeId);
        return new KeyOutcome.Issued(secret);
    }

    /// <summary>A successor with the same reach. The key before it goes on, or stops in the same moment.</summary>
    public async Task<KeyOutcome> RotateAsync(CurrentUser user, Guid keyId, bool stopOld, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var old = await db.ApiKeys.SingleOrDefaultAsync(k => k.Id == keyId && k.ProgrammeId == user.ProgrammeId && k.RevokedAt == null, cancel);
        if (old is null)
        {
            return new KeyOutcome.Refused("There is no such key any more. No other was made in its place.");
        }

        var secret = Secrets.New();
        var next = New(user.ProgrammeId, old.Name, old.Role, old.AllTanks ? null : old.TankIds, secret);
        db.ApiKeys.Add(next);
        await db.SaveChangesAsync(cancel);
        // Asked of the row as it is now: of two who replace the same key at once only one stops it, and only that one has a successor.
        if (stopOld && await db.ApiKeys.Where(k => k.Id == keyId && k.RevokedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(k => k.RevokedAt, next.IssuedAt), cancel) == 0)
        {
            return new KeyOutcome.Refused("Somebody else stopped this key at the same moment. No other was made in its place.");
        }

        if (stopOld)
        {
            db.Add(changes.Note(
                user.ProgrammeId, typeof(ApiKey), keyId.ToString(), old.Name ?? old.Role.ToString(), ChangeKind.Changed,
                new ChangedField(nameof(ApiKey.RevokedAt), null, next.IssuedAt.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture))));
            await db.SaveChangesAsync(cancel);
        }

        await transaction.CommitAsync(cancel);
        log.LogInformation("{Person} replaced a {Role} key, the old one {Fate}", user.PersonId, old.Role, stopOld ? "stopped" : "goes on");
        return new KeyOutcome.Issued(secret);
    }

    private ApiKey New(Guid programmeId, string? name, ApiKeyRole role, IReadOnlyCollection<Guid>? tanks, string secret) => new()
    {
        Id = Guid.CreateVersion7(),
        ProgrammeId = programmeId,
        Name = name,
        Role = role,
        SecretHash = Secrets.Hash(secret),
        AllTanks = tanks is null,
        TankIds = [.. (tanks ?? []).Distinct()],
        IssuedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
    };
}
