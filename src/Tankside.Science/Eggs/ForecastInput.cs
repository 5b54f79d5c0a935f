using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>One past day's mean water temperature and how well it is known.</summary>
/// <param name="Mean">Mean of the day, °C, read or filled in from its neighbours.</param>
/// <param name="ErrorSd">Standard deviation of that day's own error, °C, independent of other days: small for a day with
/// readings, larger for a day without.</param>
public readonly record struct DayTemperature(Celsius Mean, double ErrorSd);

/// <summary>
/// What a forecast of a stage is made from. Every standard deviation is 0 or more and finite, or the forecast throws.
/// </summary>
public sealed record ForecastInput
{
    /// <summary>The rule for the stage.</summary>
    public required StageModel Model { get; init; }

    /// <summary>Best estimate of the fraction of the way to the stage done today; 1 is the stage itself.</summary>
    public required double FractionSoFar { get; init; }

    /// <summary>Standard deviation of the fraction that the eggs had when their temperature record begins.</summary>
    public double StartFractionSd { get; init; }

    /// <summary>
    /// Days between the first and last spawning; taken as uniform, so its standard deviation is range / sqrt 12.
    /// </summary>
    public double SpawnSpreadDays { get; init; }

    /// <summary>Mean water temperature while the spawning lasted, °C; it turns spawning days into fraction.</summary>
    public required Celsius SpawnWaterMean { get; init; }

    /// <summary>The recorded days since the start; they give the errors, the sum itself is <see cref="FractionSoFar"/>.</summary>
    public IReadOnlyList<DayTemperature> Past { get; init; } = [];

    /// <summary>Standard deviation of a constant thermometer error shared by all days, past and to come, °C.</summary>
    public double ThermometerSd { get; init; }

    /// <summary>Expected mean water temperature of today and the days to come, °C; the last goes on. At least one.</summary>
    public required IReadOnlyList<Celsius> Future { get; init; }

    /// <summary>Standard deviation of each coming day about its expected mean, independent day to day, °C.</summary>
    public double FutureDaySd { get; init; }

    /// <summary>Standard deviation of the expected mean of the coming days as a whole, °C.</summary>
    public double FutureMeanSd { get; init; }

    /// <summary>Standard deviation of ln D that all vessels of the same eggs share.</summary>
    public double ModelSharedSd { get; init; }

    /// <summary>Standard deviation of ln D of this vessel alone.</summary>
    public double ModelOwnSd { get; init; }

    /// <summary>Whether the temperatures lie outside the source's range; doubles the model's error.</summary>
    public bool OutsideRange { get; init; }
}
