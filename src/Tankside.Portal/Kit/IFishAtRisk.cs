using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>How many fish hang on each tank; who keeps the ledger knows it.</summary>
public interface IFishAtRisk
{
    Task<IReadOnlyDictionary<Guid, int>> InTanksAsync(HatcheryDb db, IReadOnlyList<Guid> tankIds, CancellationToken cancel);
}
