using Tankside.Science.Units;

namespace Tankside.Science.Losses;

/// <summary>The exponentially weighted moving average chart: the recent past weighs most, the old fades.</summary>
/// <remarks>
/// E(i) = w x(i) + (1 - w) E(i-1); limits at L s sqrt(w / (2 - w)) from the centre once it has settled. Source: Roberts 1959 (from memory);
/// worked in the NIST/SEMATECH e-Handbook 6.3.2.4, whose table is checked in tests.
/// </remarks>
public static class Ewma
{
    /// <summary>The average after one more value.</summary>
    /// <param name="before">The average so far, at first the centre.</param>
    /// <param name="value">The new value; finite, or it throws.</param>
    /// <param name="weight">The new value's weight; above 0 and under 1, or it throws.</param>
    public static double Next(double before, double value, double weight) =>
        (Require.Share(weight, nameof(weight)) * Require.Finite(value, nameof(value))) + ((1 - weight) * before);

    /// <summary>How far from the centre the settled chart's limits lie.</summary>
    /// <param name="spread">Standard deviation of the single values, 0 or more.</param>
    /// <param name="weight">As in <see cref="Next"/>.</param>
    /// <param name="widths">How many standard deviations of the average, as a rule 3; 0 or more.</param>
    public static double Reach(double spread, double weight, double widths = 3) =>
        Require.NotNegative(widths, nameof(widths)) * Require.NotNegative(spread, nameof(spread))
        * Math.Sqrt(Require.Share(weight, nameof(weight)) / (2 - weight));
}
