namespace Tankside.Hatchery.Readings;

/// <summary>Why a value is asked back instead of being believed.</summary>
public enum Doubt
{
    /// <summary>The number fits the other scale better: 52 in a Celsius field.</summary>
    OtherScale,

    /// <summary>Between the scales (22 to 32): too warm for °C, too cold for °F.</summary>
    BetweenScales,

    /// <summary>A digit or a point looks slipped: 5.2 for 52.</summary>
    SlippedDigit,

    /// <summary>No tank warms or cools this fast.</summary>
    ImpossibleJump,

    /// <summary>Two ticks and a number cannot all be true.</summary>
    Unusual,
}
