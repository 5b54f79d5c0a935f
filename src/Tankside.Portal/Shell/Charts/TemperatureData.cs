namespace Tankside.Portal.Shell.Charts;

/// <summary>One reading of the water.</summary>
/// <param name="At">Programme-local time of the reading.</param>
/// <param name="C">Degrees Celsius.</param>
/// <param name="Asked">True while it has been asked back and nobody has confirmed it; drawn apart from the line.</param>
public sealed record TemperaturePoint(DateTime At, double C, bool Asked = false);

/// <summary>The range in which the fish of this tank are safe, degrees Celsius.</summary>
public sealed record SafeBand(double LowC, double HighC);

/// <summary>One moment of the warming forecast: slow, likely and fast course, degrees Celsius.</summary>
public sealed record FanPoint(DateTime At, double LowC, double MidC, double HighC);

/// <summary>The words of the temperature chart. In <see cref="Between"/> {0} and {1} are clock times.</summary>
public sealed record TemperatureWords
{
    public string Water { get; init; } = "water";

    public string Safe { get; init; } = "safe";

    public string SetPoint { get; init; } = "set point";

    public string Planned { get; init; } = "planned set-point";

    public string Limit { get; init; } = "limit";

    public string Between { get; init; } = "between {0} and {1}";

    public string From { get; init; } = "from {0}";

    public string Passed { get; init; } = "already past it";

    public string Forecast { get; init; } = "forecast, slow to fast";

    public string Asked { get; init; } = "asked back, not confirmed";

    public string Closed { get; init; } = "school closed";

    public string Nothing { get; init; } = "No reading yet.";

    public string Table { get; init; } = "The readings as a table";

    public string When { get; init; } = "When";

    public string Low { get; init; } = "slow";

    public string Mid { get; init; } = "likely";

    public string High { get; init; } = "fast";
}
