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

    public double SpawnSpreadDays => FertilisedTo.DayNumber - FertilisedFrom.DayNumber;
}

/// <summary>Where a brood stands, in the words that limits are set by.</summary>
public enum LifeStage
{
    Egg,
    Alevin,
    Fry,
}
