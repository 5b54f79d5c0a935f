using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Portal.Bench;

/// <param name="ElevationM">Elevation when that was given, m.</param>
/// <param name="PressureHPa">Pressure when that was given, hPa.</param>
public sealed record OxygenGiven(Celsius Water, double? ElevationM, double? PressureHPa)
{
    /// <summary>Absolute air pressure: as given, from the elevation, or one atmosphere.</summary>
    public Kilopascals Pressure =>
        PressureHPa is { } hPa
            ? Science.Water.Pressure.FromHectopascals(hPa)
            : Science.Water.Pressure.AtElevation(ElevationM ?? 0);
}

/// <param name="SaturationMgL">Oxygen at saturation, mg/L.</param>
public sealed record OxygenAnswer(double SaturationMgL);

/// <summary>Oxygen that fresh water can hold.</summary>
public sealed class OxygenCalculator : Calculator<OxygenGiven, OxygenAnswer>
{
    public static readonly NumberField Water = NumberField.Temperature("waterC", "water temperature", 0, 40, 10);

    public static readonly NumberField Elevation =
        new("elevationM", "elevation above sea level; not together with pressureHPa, sea level when both are left out",
            -500, 11_000, 1524)
        { Measure = Measure.Height, Unit = "m", Required = false };

    public static readonly NumberField Pressure =
        new("pressureHPa", "air pressure at the place itself, not reduced to sea level; not together with elevationM",
            200, 1_500, 843)
        { Unit = "hPa", Required = false };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "oxygen",
        Title = "Oxygen in water",
        Asks = "How much oxygen can the water hold?",
        Formula = "ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T² + 1.2438e10/T³ - 8.621949e11/T⁴, corrected for pressure by P (1 - Pwv/P)(1 - θP) / ((1 - Pwv)(1 - θ)); P from elevation: (1 - 2.25577e-5 h)^5.25588 atm.",
        Symbols = "C oxygen at saturation, mg/L; T water temperature, kelvin; P air pressure, atm; Pwv vapour pressure of water, atm; θ a small term of the temperature; h elevation, m.",
        Range = "Fresh water, 0 to 40 °C (32 to 104 °F); published for about 500 to 1100 hPa, answered for 200 to 1500.",
        Source = "Benson and Krause 1984, Limnology and Oceanography 29:620-632, as in Standard Methods 4500-O; ISO 2533 for elevation.",
        HowKnown = "Coefficients from memory, checked on printed tables (EN 25814, Standard Methods, an instrument's pressure table).",
        Answers = "saturationMgL: oxygen at saturation, mg/L.",
        Fields = [Water, Elevation, Pressure],
    };

    protected override OxygenGiven? Read(Question question)
    {
        var water = question.Temperature(Water);
        var (elevation, pressure) = (question.Maybe(Elevation), question.Maybe(Pressure));
        if (question.Has(Elevation) && question.Has(Pressure))
        {
            foreach (var field in (NumberField[])[Elevation, Pressure])
            {
                question.Refuse(field, question.OnPage
                    ? question.Say["Give the elevation or the pressure, not both."]
                    : $"Both elevationM and pressureHPa are given. Expected one, for example {field.Name}={field.Sample}.");
            }
        }

        return new(water, elevation, pressure);
    }

    protected override OxygenAnswer Answer(OxygenGiven given, Say say) =>
        new(Figures.SixFigures(Oxygen.Saturation(given.Water, given.Pressure).Value));
}
