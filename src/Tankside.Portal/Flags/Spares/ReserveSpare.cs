using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Spares;

/// <summary>
/// Promises a spare to a tank, or gives it back. The spare and the line of history are saved together; of two people who want the same one
/// the second is told.
/// </summary>
public sealed class ReserveSpare(IDbContextFactory<HatcheryDb> databases, TimeProvider time, RoundFeed feed)
{
    public Task<ActOutcome> ReserveAsync(Guid flagId, int turn, Guid itemId, CurrentUser by, CancellationToken cancel) =>
        TryAsync(flagId, turn, itemId, FlagDeed.SpareReserved, by, cancel);

    public Task<ActOutcome> GiveBackAsync(Guid flagId, int turn, Guid itemId, CurrentUser by, CancellationToken cancel) =>
        TryAsync(flagId, turn, itemId, FlagDeed.SpareGivenBack, by, cancel);

    private async Task<ActOutcome> TryAsync(Guid flagId, int turn, Guid itemId, FlagDeed deed, CurrentUser by, CancellationToken cancel)
    {
        var now = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var flag = await db.Flags.SingleOrDefaultAsync(f => f.Id == flagId && f.ProgrammeId == by.ProgrammeId && f.TankId != null, cancel);
        var item = await db.KitItems.SingleOrDefaultAsync(k => k.Id == itemId && k.ProgrammeId == by.ProgrammeId, cancel);
        if (flag is null || item is null)
        {
            return new ActOutcome.Refused("This flag or this spare is not in your programme.");
        }

        if (flag.Turn != turn)
        {
            return await ActOnFlag.ClashAsync(db, flag, cancel);
        }

        if (WhyNot(item, flag.TankId!.Value, deed) is { } why)
        {
            return new ActOutcome.Refused(why);
        }

        var reserve = deed == FlagDeed.SpareReserved;
        item.ReservedForTankId = reserve ? flag.TankId : null;
        item.ReservedBy = reserve ? by.PersonId : null;
        item.ReservedAt = reserve ? now : null;
        flag.Turn++;
        flag.UpdatedAt = now;
        db.FlagEvents.Add(ActOnFlag.Line(flag, new FlagAct(flagId, turn, deed, $"{Kit.KitWords.Of(item.Kind)} {item.Serial}"), by, now));
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new ActOutcome.Refused("Somebody reserved or changed this spare, or acted on this flag, at the same moment. Nothing of yours was saved; look again.");
        }

        feed.Tell([flag.ProgrammeId]);
        return new ActOutcome.Done(flag);
    }

    private static string? WhyNot(KitItem item, Guid tankId, FlagDeed deed) => deed switch
    {
        FlagDeed.SpareReserved when item.ReservedForTankId == tankId => "It is reserved for this tank already.",
        FlagDeed.SpareReserved when item.ReservedForTankId is not null => "It is promised to another tank.",
        FlagDeed.SpareReserved when !item.IsSpare => "It does not work or stands in a tank.",
        FlagDeed.SpareGivenBack when item.ReservedForTankId != tankId => "It is not reserved for this tank.",
        _ => null,
    };
}
