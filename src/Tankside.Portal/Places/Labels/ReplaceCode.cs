using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Places.Labels;

/// <summary>What became of a tank's code.</summary>
public abstract record CodeOutcome
{
    public sealed record Issued(RoomCode Code) : CodeOutcome;

    /// <summary>Somebody else was quicker: the code that was to be replaced is not the valid one any more.</summary>
    public sealed record Crossed : CodeOutcome;

    public sealed record NotFound : CodeOutcome;
}

/// <summary>Gives a tank a new code. The one it had is void in the same moment, and never works again.</summary>
public sealed class ReplaceCode(IDbContextFactory<HatcheryDb> databases, TimeProvider time, ILogger<ReplaceCode> log)
{
    /// <param name="replaces">The code that the person saw; null for a tank that had none.</param>
    public async Task<CodeOutcome> HandleAsync(CurrentUser user, string tankCode, Guid? replaces, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var tankId = await db.TanksOf(user).Where(t => t.Code == tankCode && t.ClosedAt == null).Select(t => t.Id).SingleOrDefaultAsync(cancel);
        if (tankId == Guid.Empty)
        {
            return new CodeOutcome.NotFound();
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        // Writes nothing new, but holds the tank: of two who replace its code at once the second waits here and then sees the first one's.
        await db.Tanks.Where(t => t.Id == tankId).ExecuteUpdateAsync(set => set.SetProperty(t => t.Litres, t => t.Litres), cancel);
        var valid = await db.RoomCodes.Where(c => c.TankId == tankId && c.RevokedAt == null).OrderByDescending(c => c.IssuedAt).ToListAsync(cancel);
        if (valid.FirstOrDefault()?.Id != replaces)
        {
            return new CodeOutcome.Crossed();
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        valid.ForEach(c => c.RevokedAt = now);
        var code = new RoomCode { Id = Guid.CreateVersion7(), TankId = tankId, Code = RoomCodes.Make(RandomNumberGenerator.GetInt32), IssuedAt = now };
        db.RoomCodes.Add(code);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        log.LogInformation("{Person} gave {Tank} a new room code, {Revoked} revoked", user.PersonId, tankCode, valid.Count);
        return new CodeOutcome.Issued(code);
    }

    /// <summary>Gives a code to every tank that has none, and says to how many.</summary>
    public async Task<int> IssueMissingAsync(CurrentUser user, CancellationToken cancel)
    {
        List<string> without;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            without = await db.TanksOf(user)
                .Where(t => t.ClosedAt == null && !db.RoomCodes.Any(c => c.TankId == t.Id && c.RevokedAt == null))
                .OrderBy(t => t.Code).Select(t => t.Code).ToListAsync(cancel);
        }

        var issued = 0;
        foreach (var tank in without)
        {
            issued += await HandleAsync(user, tank, null, cancel) is CodeOutcome.Issued ? 1 : 0;
        }

        return issued;
    }
}
