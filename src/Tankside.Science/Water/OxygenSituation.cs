using Tankside.Science.Units;

namespace Tankside.Science.Water;

/// <summary>What breathes in the water.</summary>
public enum FishStage
{
    /// <summary>Eyed eggs.</summary>
    Egg,

    /// <summary>Alevins living on their yolk.</summary>
    Alevin,

    /// <summary>Fry that swim and feed.</summary>
    Fry,
}

/// <summary>The oxygen levels of one question, all in mg/L.</summary>
/// <param name="Saturation">What the water would hold, Cs.</param>
/// <param name="Start">What it holds now.</param>
/// <param name="Limit">What it must not fall under.</param>
public readonly record struct OxygenLevels(MilligramsPerLitre Saturation, MilligramsPerLitre Start, MilligramsPerLitre Limit);

/// <summary>Hours as an 80% range in which an end may never come (null). Low is the soonest.</summary>
/// <param name="Low">One time in ten it is sooner, h.</param>
/// <param name="Mid">Half the time it is sooner, h.</param>
/// <param name="High">Nine times in ten it is sooner, h.</param>
public readonly record struct HoursBand(double? Low, double? Mid, double? High);

/// <summary>Water whose pump and air have stopped, and what lives in it.</summary>
public sealed record OxygenSituation
{
    /// <summary>Water volume, L; positive.</summary>
    public required Litres Volume { get; init; }

    /// <summary>Water temperature, 0-40 °C.</summary>
    public required Celsius Water { get; init; }

    /// <summary>Absolute air pressure at the place, 20-150 kPa.</summary>
    public required Kilopascals Pressure { get; init; }

    /// <summary>
    /// Open surface, m²; left out, that of a common glass vessel of the volume (<see cref="OxygenDemand.SurfaceFor"/>).
    /// </summary>
    public double? SurfaceM2 { get; init; }

    /// <summary>What breathes.</summary>
    public required FishStage Stage { get; init; }

    /// <summary>How many, 0 or more.</summary>
    public required int Fish { get; init; }

    /// <summary>Mean weight of fry, g; positive for fry, ignored otherwise.</summary>
    public double MeanGrams { get; init; }

    /// <summary>Oxygen now, mg/L.</summary>
    public required MilligramsPerLitre Start { get; init; }

    /// <summary>The level asked about, mg/L.</summary>
    public required MilligramsPerLitre Limit { get; init; }
}
