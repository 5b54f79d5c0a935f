using System.Text.Json.Serialization;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Bench;

/// <param name="HalfTimeHours">Measured hours in which the gap to the room halves; null to use the tank's size.</param>
public sealed record WarmingGiven(
    Litres Volume, Celsius Water, Celsius Room, Celsius Limit, Jacket Jacket, double? HalfTimeHours);

/// <param name="Hours">Middle of the hours until the limit; null when it is not reached.</param>
/// <param name="Low">Near end of the 80% interval, hours.</param>
/// <param name="High">Far end of the 80% interval, hours.</param>
/// <param name="Why">Why there are no hours.</param>
public sealed record WarmingAnswer(
    double? Hours, double? Low, double? High,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] string? Why = null);

/// <summary>Hours until water without its chiller is too warm.</summary>
public sealed class WarmingCalculator : Calculator<WarmingGiven, WarmingAnswer>
{
    /// <summary>Standard deviation of ln tau when somebody measured the half-time. No source: chosen here.</summary>
    public const double MeasuredLogSd = 0.15;

    public static readonly NumberField Volume =
        new("litres", "water in the tank", 1, 100_000, 208) { Measure = Measure.Volume, Unit = "L" };

    public static readonly NumberField Water = NumberField.Temperature("waterC", "water temperature now", -5, 40, 10);

    public static readonly NumberField Room = NumberField.Temperature("roomC", "room temperature", -30, 50, 21);

    public static readonly NumberField Limit = NumberField.Temperature("limitC", "temperature asked about", -5, 40, 15);

    public static readonly WordField Wears = new("jacket", "what the tank wears", ["none", "foam"], "none") { Required = false };

    public static readonly NumberField HalfTime =
        new("halfTimeHours", "measured time in which the gap to the room halves; stands in for the tank's size and jacket",
            0.1, 10_000, 9)
        { Unit = "hours", Required = false };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "warming",
        Title = "Warming without a chiller",
        Asks = "How long until the water is too warm?",
        Formula = "t = τ ln((S - T0) / (S - L)); S = room + 15 W of pump heat / UA, UA = 1.163 V / τ in W/K. With a measured half-time h: τ = h / ln 2 and S = the room.",
        Symbols = "t hours; τ time constant, hours; S where the water settles, T0 water now, L limit, °C; V litres.",
        Range = "Still-circulating water in a glass tank of 38 to 208 L (10 to 55 US gal); wider spread outside. The interval is 80%: ln τ ± 1.28 × 0.4 (0.5 outside those sizes, 0.15 with a measured half-time).",
        Source = "Newton's law of cooling. τ computed from film and wall resistances of six tank sizes, bare dry glass with a lid or one inch of foam with the usual gaps.",
        HowKnown = "A computed estimate, not measured; sweating glass warms a third faster. Measure your own half-time where you can.",
        Answers = "hours: middle; low, high: 80% interval, hours; all null with why when the limit is not below the room.",
        Fields = [Volume, Water, Room, Limit, Wears, HalfTime],
    };

    protected override WarmingGiven? Read(Question question) => new(
        new Litres(question.Number(Volume)), question.Temperature(Water), question.Temperature(Room), question.Temperature(Limit),
        question.Word(Wears) == "foam" ? Jacket.Foam : Jacket.None, question.Maybe(HalfTime));

    protected override WarmingAnswer Answer(WarmingGiven given, Say say)
    {
        if (given.Water >= given.Limit) return new(0, 0, 0);
        var (tau, spread) = Tau(given);
        var hours = given.Limit < given.Room ? Warming.HoursTo(given.Limit, given.Water, SettlesAt(given), tau, spread) : null;
        return hours is { } band
            ? new(Figures.SixFigures(band.Mid), Figures.SixFigures(band.Low), Figures.SixFigures(band.High))
            : new(null, null, null, say["The limit is not below the room's temperature, so the room alone does not warm the water to it. A running pump adds a little heat of its own (in foam, some degrees), so keep reading the thermometer."]);
    }

    /// <summary>A measured half-time already holds the pump's heat, so the water then settles at the room itself.</summary>
    public static Celsius SettlesAt(WarmingGiven given) =>
        given.HalfTimeHours is null ? Warming.SettlesAt(given.Room, given.Volume, given.Jacket) : given.Room;

    private static (double Hours, double LogSd) Tau(WarmingGiven given) =>
        given.HalfTimeHours is { } half ? (half / Math.Log(2), MeasuredLogSd) : Warming.TimeConstant(given.Volume, given.Jacket);
}
