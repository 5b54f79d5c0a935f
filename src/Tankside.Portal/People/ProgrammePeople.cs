using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <param name="TwoSteps">A code is asked of them after the password.</param>
/// <param name="Check">Which background check was shown; null for none.</param>
/// <param name="CheckedUntil">The last day on which it holds.</param>
public sealed record Member(Guid Id, Guid PersonId, string Name, string Email, Role Role, Guid? SchoolId, bool TwoSteps, string? Check, DateOnly? CheckedUntil)
{
    /// <summary>Since when a mail server refuses their address for good; null while it takes mail.</summary>
    public DateTime? NoMailSince { get; init; }

    public bool HasPasskey { get; init; }

    public bool HasStep => TwoSteps || HasPasskey;
}

public sealed record SentInvitation(Guid Id, string Email, Role Role, Guid? SchoolId, DateTime ExpiresAt);

public sealed record ListedKey(Guid Id, string? Name, ApiKeyRole Role, bool AllTanks, IReadOnlyList<string> Tanks, DateTime IssuedAt, DateTime? LastUsedAt);

/// <summary>Everybody and everything that may enter a programme, as its lead sees it.</summary>
public sealed class ProgrammePeople(IDbContextFactory<HatcheryDb> databases, IPlaceNames places)
{
    public async Task<Programme> ProgrammeAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
    }

    public async Task<IReadOnlyList<Member>> MembersAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await Members(db, db.Memberships.Where(m => m.ProgrammeId == user.ProgrammeId)).ToListAsync(cancel);
    }

    public async Task<Member?> MemberAsync(CurrentUser user, Guid membershipId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await Members(db, db.Memberships.Where(m => m.ProgrammeId == user.ProgrammeId && m.Id == membershipId)).SingleOrDefaultAsync(cancel);
    }

    /// <summary>Invitations that wait, and those that ran out unanswered, newest first.</summary>
    public async Task<IReadOnlyList<SentInvitation>> InvitationsAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Invitations
            .Where(i => i.ProgrammeId == user.ProgrammeId && i.AcceptedAt == null && i.WithdrawnAt == null)
            .OrderByDescending(i => i.ExpiresAt)
            .Select(i => new SentInvitation(i.Id, i.Email, i.Role, i.SchoolId, i.ExpiresAt)).ToListAsync(cancel);
    }

    /// <summary>Keys that work.</summary>
    public async Task<IReadOnlyList<ListedKey>> KeysAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var keys = await db.ApiKeys.AsNoTracking()
            .Where(k => k.ProgrammeId == user.ProgrammeId && k.RevokedAt == null).OrderBy(k => k.IssuedAt).ToListAsync(cancel);
        var codes = await places.TankCodesAsync(user.ProgrammeId, [.. keys.SelectMany(k => k.TankIds).Distinct()], cancel);
        return
        [
            .. keys.Select(k => new ListedKey(
                k.Id, k.Name, k.Role, k.AllTanks, [.. k.TankIds.Where(codes.ContainsKey).Select(id => codes[id]).Order(StringComparer.Ordinal)], k.IssuedAt, k.LastUsedAt)),
        ];
    }

    private static IQueryable<Member> Members(HatcheryDb db, IQueryable<Membership> memberships) =>
        from m in memberships
        join p in db.Users on m.PersonId equals p.Id
        orderby p.Name, p.Email
        select new Member(m.Id, p.Id, p.Name, p.Email!, m.Role, m.SchoolId, p.TwoFactorEnabled, m.CheckKind, m.CheckedUntil)
        {
            HasPasskey = db.Passkeys.Any(k => k.UserId == p.Id),
            NoMailSince = db.RefusedAddresses.Where(a => a.Address == p.NormalizedEmail).Select(a => (DateTime?)a.Since).FirstOrDefault(),
        };
}
