namespace Tankside.Science.Units;

/// <summary>Refusals that several functions share. Not-a-number is refused by all of them.</summary>
internal static class Require
{
    public static double Finite(double value, string name) =>
        double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Must be finite.");

    public static double Positive(double value, string name) =>
        value > 0 && double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Must be positive.");

    public static double NotNegative(double value, string name) =>
        value >= 0 && double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(name, value, "Must be 0 or more.");

    /// <summary>A probability or confidence: above 0 and under 1.</summary>
    public static double Share(double value, string name) =>
        value > 0 && value < 1 ? value : throw new ArgumentOutOfRangeException(name, value, "Must lie between 0 and 1.");

    public static double Within(double value, double low, double high, string name) =>
        value >= low && value <= high
            ? value
            : throw new ArgumentOutOfRangeException(
                name, value, FormattableString.Invariant($"Must lie between {low} and {high}."));
}
