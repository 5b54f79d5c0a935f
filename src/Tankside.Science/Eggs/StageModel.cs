using System.Diagnostics.CodeAnalysis;
using Tankside.Science.Units;

namespace Tankside.Science.Eggs;

/// <summary>
/// Days from fertilisation to a stage at a constant temperature, and whether the source covers that temperature.
/// </summary>
/// <param name="Days">Days from fertilisation until half of the fish have reached the stage.</param>
/// <param name="InRange">Whether the temperature lies inside the range of the source.</param>
public sealed record StageTime(double Days, bool InRange);

/// <summary>
/// One published rule for the days D(T) from fertilisation to a stage at constant temperature T. Made by
/// <see cref="StageModels"/>, which names formula and source of each.
/// </summary>
public sealed class StageModel
{
    private readonly Func<double, double> _days;
    private readonly double _answersFrom;
    private readonly double _answersTo;
    private readonly double _slack;

    internal StageModel(StageModelCard card, Func<double, double> days)
    {
        _days = days;
        _answersFrom = card.AnswersFrom;
        _answersTo = card.AnswersTo;
        _slack = card.Extrapolates ? 1e-9 : TableSlack;
        Card = card;
    }

    /// <summary>
    /// A table answers this far beyond its ends, °C, with the end's value: a cell printed at 55 °F is read as 12.8 °C by a
    /// thermometer with tenths. No source: it is that rounding.
    /// </summary>
    public const double TableSlack = 0.05;

    internal StageModelCard Card { get; }

    /// <summary>Short name of the rule.</summary>
    public string Name => Card.Name;

    /// <summary>Who published it.</summary>
    public string Source => Card.Source;

    /// <summary>How its numbers are known: from memory, second-hand copy, or seen.</summary>
    public string HowKnown => Card.HowKnown;

    /// <summary>The species it answers for.</summary>
    public Species Species => Card.Species;

    /// <summary>The stage it answers for.</summary>
    public Stage Stage => Card.Stage;

    /// <summary>Coldest temperature the source covers, °C.</summary>
    public double FromC => Card.FromC;

    /// <summary>Warmest temperature the source covers, °C.</summary>
    public double ToC => Card.ToC;

    /// <summary>Standard deviation of ln D about the rule, inside its range (0.07 is about 7% of D).</summary>
    public double LogSd => Card.LogSd;

    /// <summary>What <see cref="LogSd"/> was measured on, or "no source".</summary>
    public string LogSdSource => Card.LogSdSource;

    /// <summary>Whether it also answers outside its range (a curve does, marked out of range; a table does not).</summary>
    public bool ExtrapolatesOutside => Card.Extrapolates;

    /// <summary>Whether it is the hatch's rule times a factor, so that the hatch's error is in it.</summary>
    public bool IsFactorOfHatch => Card.FactorOfHatch;

    /// <summary>Whether the source covers this temperature. Not-a-number is never in range.</summary>
    /// <param name="t">Water temperature, °C.</param>
    public bool InRange(Celsius t) => t.Degrees >= FromC - _slack && t.Degrees <= ToC + _slack;

    /// <summary>
    /// Days to the stage at a constant temperature. False where there is no answer: outside a table, under 0 °C (fresh water
    /// is ice), where a curve is not defined, and for a temperature that is not finite.
    /// </summary>
    /// <param name="t">Water temperature, °C.</param>
    /// <param name="time">The days and whether they are in range.</param>
    public bool TryDaysAt(Celsius t, [NotNullWhen(true)] out StageTime? time)
    {
        time = null;
        var degrees = t.Degrees;
        if (!double.IsFinite(degrees) || degrees < _answersFrom - _slack || degrees > _answersTo + _slack) return false;
        var days = _days(Math.Clamp(degrees, _answersFrom, _answersTo));
        if (!double.IsFinite(days) || days <= 0) return false;
        time = new StageTime(days, InRange(t));
        return true;
    }

    /// <summary>
    /// Development a day, as a fraction of the way from fertilisation to the stage: 1 / D(T). Zero where a curve gives no answer
    /// on the cold side. Outside a table the rate of its nearest end holds, so that one odd day does not stop a sum; the days
    /// concerned are then out of range.
    /// </summary>
    /// <param name="t">Mean water temperature of the day, °C. Throws when not finite.</param>
    public double RateAt(Celsius t)
    {
        Require.Finite(t.Degrees, nameof(t));
        var degrees = ExtrapolatesOutside ? t.Degrees : Math.Clamp(t.Degrees, _answersFrom, _answersTo);
        if (degrees < _answersFrom - _slack) return 0;
        var days = _days(degrees);
        return double.IsFinite(days) && days > 0 ? 1 / days : 0;
    }

    /// <summary>
    /// How fast <see cref="RateAt"/> grows with the temperature, fraction a day and °C: the difference over 0.1 °C to either side.
    /// </summary>
    /// <param name="t">Mean water temperature of the day, °C. Throws when not finite.</param>
    public double SlopeAt(Celsius t)
    {
        const double step = 0.1;

        // The rate breaks off at freezing; a step across that edge would read as a steep slope.
        var below = t.Degrees >= 0 ? Math.Max(0, t.Degrees - step) : t.Degrees - step;
        return (RateAt(new Celsius(t.Degrees + step)) - RateAt(new Celsius(below))) / (t.Degrees + step - below);
    }

    internal double DaysUnchecked(double degrees) => _days(degrees);
}
