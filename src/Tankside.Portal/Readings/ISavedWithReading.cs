using Tankside.Hatchery.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Readings;

/// <summary>
/// Something that has to be saved in one transaction with an accepted reading. Readings stand left of the ledger in the flow and may not
/// mention it; this is the seam.
/// </summary>
public interface ISavedWithReading
{
    /// <param name="db">The context of the transaction; add to it, do not save.</param>
    /// <param name="reading">The reading just accepted.</param>
    /// <param name="corrected">The reading that it corrects, if any.</param>
    /// <param name="season">The season whose eggs the tank holds; null before any came.</param>
    void Add(HatcheryDb db, Reading reading, Reading? corrected, Guid? season);

    /// <summary>Undoes what was added with readings that are taken back without a correction.</summary>
    /// <param name="db">The context of the transaction; add to it, do not save.</param>
    /// <param name="withdrawn">Readings that counted until now.</param>
    /// <param name="by">Who takes them back.</param>
    Task TakeBackAsync(HatcheryDb db, IReadOnlyList<Reading> withdrawn, Guid by, DateTime now, CancellationToken cancel);
}
