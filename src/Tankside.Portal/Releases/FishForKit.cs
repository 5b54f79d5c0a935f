using Tankside.Portal.Kit;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>Tells those who place spares how many fish the ledger leaves in each tank.</summary>
internal sealed class FishForKit : IFishAtRisk
{
    public async Task<IReadOnlyDictionary<Guid, int>> InTanksAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel)
    {
        var fish = await FishInTanks.LoadAsync(db, tankIds, cancel);
        return tankIds.ToDictionary(t => t, fish.Of);
    }
}
