using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>The programmes' own stage tables for the species of some lots. Nothing is asked of the database where every stage has a published rule.</summary>
public sealed class OwnTables
{
    private readonly ILookup<(Guid Programme, Species), StageModel> tables;

    private OwnTables(IEnumerable<OwnStageTable> rows) => tables = rows.ToLookup(t => (t.ProgrammeId, t.Species), t => t.Model());

    public static async Task<OwnTables> LoadAsync(HatcheryDb db, IEnumerable<EggLot> lots, CancellationToken cancel)
    {
        var asking = lots.Where(l => !IsPublished(l.Species)).ToList();
        if (asking.Count == 0)
        {
            return new OwnTables([]);
        }

        var programmes = asking.Select(l => l.ProgrammeId).Distinct().ToList();
        return new OwnTables(await db.OwnStageTables.AsNoTracking().Where(t => programmes.Contains(t.ProgrammeId)).ToListAsync(cancel));
    }

    /// <summary>A lot as the dates of a tank take it that got its eggs on a day.</summary>
    public LotProfile ProfileOf(EggLot lot, DateOnly delivered, string? run) =>
        new(lot.Code, lot.Species, lot.FertilisedFrom, lot.FertilisedTo, lot.HatcheryMeanC, delivered, run)
        {
            History = LotHistory.Of(lot),
            OwnTables = [.. tables[(lot.ProgrammeId, lot.Species)]],
        };

    private static bool IsPublished(Species species) =>
        StageModels.TryFind(species, Stage.Hatch, out _, out _) && StageModels.TryFind(species, Stage.SwimUp, out _, out _);
}
