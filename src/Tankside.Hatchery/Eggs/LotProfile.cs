using System.Diagnostics.CodeAnalysis;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Eggs;

/// <summary>What a tank's development depends on from before it came to the classroom.</summary>
/// <param name="Code">The lot's code.</param>
/// <param name="Species">Species of the eggs.</param>
/// <param name="FertilisedFrom">First spawning day.</param>
/// <param name="FertilisedTo">Last spawning day.</param>
/// <param name="HatcheryMeanC">Mean water temperature until delivery, °C.</param>
/// <param name="DeliveredOn">Local day of delivery; from here the tank's own temperatures count.</param>
/// <param name="Run">The delivery run, when known.</param>
public sealed record LotProfile(
    string Code,
    Species Species,
    DateOnly FertilisedFrom,
    DateOnly FertilisedTo,
    double HatcheryMeanC,
    DateOnly DeliveredOn,
    string? Run)
{
    /// <summary>The middle of the spawning days.</summary>
    public DateOnly Fertilised => FertilisedFrom.AddDays((FertilisedTo.DayNumber - FertilisedFrom.DayNumber) / 2);

    /// <summary>What more is known of its way before delivery.</summary>
    public LotHistory History { get; init; } = LotHistory.Mean;

    /// <summary>The programme's own tables for its species; they are asked where nothing published is known.</summary>
    public IReadOnlyList<StageModel> OwnTables { get; init; } = [];

    public double SpawnSpreadDays => FertilisedTo.DayNumber - FertilisedFrom.DayNumber;

    /// <summary>Finds the rule for a stage: a published one, else the programme's own table, else the multiple of its own hatch table.</summary>
    /// <param name="why">Why there is none; empty when there is one.</param>
    public bool TryFind(Stage stage, [NotNullWhen(true)] out StageModel? model, out string why)
    {
        if (StageModels.TryFind(Species, stage, out model, out why))
        {
            return true;
        }

        model = OwnTables.FirstOrDefault(t => t.Stage == stage)
            ?? (OwnTables.FirstOrDefault(t => t.Stage == Stage.Hatch) is { } hatch ? StageModels.FromHatch(hatch, stage) : null);
        why = model is null ? why : "";
        return model is not null;
    }
}

/// <summary>Where a brood stands, in the words that limits are set by.</summary>
public enum LifeStage
{
    Egg,
    Alevin,
    Fry,
}
