using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// A thermometer that always says the same. How many equal readings are too many depends on how finely it is read: a steady tank truly
/// reads the same whole degree for weeks. Readings near each other in time are one: at most two of a day count.
/// </summary>
public static class StuckRules
{
    /// <summary>Half a day apart: the day's first and last readings are then two looks.</summary>
    private const double TwoLooksHours = 6;

    /// <summary>Temperatures are kept to a hundredth of a degree; whole °F lie up to half of that off their grid.</summary>
    private const double Rounding = 0.0051;

    /// <summary>The share of the other temperatures that has to lie on a coarse scale for the thermometer to be read so.</summary>
    private const double MostOnScale = 0.8;

    public static Finding? NeverChanges(Situation s)
    {
        if (s.WaterC is not { } water)
        {
            return null;
        }

        var days = s.Record.Days.Where(d => d.MinC is not null).ToList();
        var run = days.AsEnumerable().Reverse().TakeWhile(d => Same(d.MinC!.Value, water) && Same(d.MaxC!.Value, water)).ToList();
        var looks = run.Sum(d => d.WaterReadings > 1 && (d.LastAt - d.FirstAt).TotalHours >= TwoLooksHours ? 2 : 1);
        if (looks < s.Limits[Limits.StuckFine])
        {
            return null;
        }

        var (step, most) = Scale(s, water, [.. days.Take(days.Count - run.Count)]);
        if (looks < most)
        {
            return null;
        }

        var evidence = new StuckEvidence(s.Stage, water, s.Water!.At, looks, run[^1].Day, step, s.Tank.SetPointC);
        var hazard = Hazard.Around(s.Water.At, s.Limits[Limits.Losses.StuckHours], s.Limits[Limits.Losses.StuckShare]);
        return new Finding(FlagKind.StuckThermometer, Urgency.ThisWeek, s.Water.At, evidence, hazard);
    }

    /// <summary>The coarsest scale on which this value and most others than it lie, and how many equal readings on it are too many.</summary>
    private static (ThermometerStep Step, double Most) Scale(Situation s, double water, List<TankDay> others)
    {
        List<double> values = [.. others.SelectMany(d => new[] { d.MinC!.Value, d.MaxC!.Value }.Distinct()).Where(c => !Same(c, water))];
        return Lies(c => (1.8 * c) + 32, 1.8) ? (ThermometerStep.WholeFahrenheit, s.Limits[Limits.StuckWhole])
            : Lies(c => c, 1) ? (ThermometerStep.WholeCelsius, s.Limits[Limits.StuckWholeCelsius])
            : values.Count > 0 && Lies(c => 2 * c, 2) ? (ThermometerStep.HalfCelsius, s.Limits[Limits.StuckWhole])
            : (ThermometerStep.Fine, s.Limits[Limits.StuckFine]);

        bool Lies(Func<double, double> scale, double perDegree) =>
            IsWhole(scale(water), perDegree) && values.Count(v => IsWhole(scale(v), perDegree)) >= MostOnScale * values.Count;
    }

    private static bool IsWhole(double value, double perDegree) => Math.Abs(value - Math.Round(value)) <= Rounding * perDegree;

    private static bool Same(double a, double b) => Math.Abs(a - b) < 0.005;
}
