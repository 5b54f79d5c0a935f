using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>
/// Something that has to be saved in one transaction with flags that cannot wait. Flags stand left of the mails in the flow and may not
/// mention them; this is the seam.
/// </summary>
public interface ISavedWithFlags
{
    /// <param name="db">The context of the judge's transaction, the flags already saved in it; add to it, do not save.</param>
    /// <param name="cannotWait">Flags that became "act now" this moment and that nobody has taken.</param>
    Task AddAsync(HatcheryDb db, IReadOnlyList<Flag> cannotWait, DateTime now, CancellationToken cancel);

    /// <summary>The transaction is committed.</summary>
    void Committed();
}
