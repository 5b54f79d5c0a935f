namespace Tankside.Science.Eggs;

/// <summary>What one vessel's hatch says of the error that all vessels of its eggs share.</summary>
/// <param name="LogFraction">y = ln f, f being the sum of 1 / D(T) that was reckoned up to the seen half hatch: above 0 when the eggs took
/// longer than the rule says.</param>
/// <param name="OwnSd">Standard deviation of the rule's error of this vessel alone, ln D; it goes on to its later stages.</param>
/// <param name="OtherSd">Standard deviation of everything else in y that is this vessel's alone: thermometer, days without a reading,
/// spawning days, and when between two looks it was.</param>
/// <param name="OutsideRange">Whether the water lay outside the range of the rule's source.</param>
public readonly record struct HatchLook(double LogFraction, double OwnSd, double OtherSd, bool OutsideRange)
{
    internal double Variance => (OwnSd * OwnSd) + (OtherSd * OtherSd);
}

/// <summary>A mean with its standard deviation, both in ln D.</summary>
public readonly record struct LogError(double Mean, double Sd);
