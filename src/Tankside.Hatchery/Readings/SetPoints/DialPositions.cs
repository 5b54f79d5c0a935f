using Tankside.Hatchery.People;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>
/// The positions that a dial can take on its way, ascending: whole °F, or half °C, which are the steps that dials in schools have (common
/// practice), and where it stands now, whether or not that lies on the scale or in the safe band.
/// </summary>
internal sealed class DialPositions
{
    /// <summary>A step that is as large as the limit still fits: 1 °F is 0.5556 °C.</summary>
    private const double Slack = 1e-9;

    /// <summary>A set-point is stored to hundredths of a °C, and 47 °F is 8.3333.</summary>
    private const double Rounding = 0.006;

    private readonly int[] up, down;

    public DialPositions(double nowC, TemperatureUnit dial, SetPointRules rules)
    {
        var (low, high) = (Math.Min(rules.LowC, nowC - Rounding), Math.Max(rules.HighC, nowC + Rounding));
        var onScale = OnScale(dial, low, high);
        var now = onScale.FindIndex(c => Math.Abs(c - nowC) < Rounding);
        if (now < 0)
        {
            onScale.Add(nowC);
            onScale.Sort();
            now = onScale.IndexOf(nowC);
            OffScale = now;
        }

        (C, Now) = ([.. onScale], now);
        Holds = [.. Enumerable.Range(0, C.Length).Where(i => i != OffScale && C[i] >= rules.LowC - Slack && C[i] <= rules.HighC + Slack)];
        (up, down) = (new int[C.Length], new int[C.Length]);
        for (var i = 0; i < C.Length; i++)
        {
            (up[i], down[i]) = (i, i);
            for (var j = 0; j < C.Length; j++)
            {
                if (j == OffScale || Math.Abs(C[j] - C[i]) > rules.LargestStepC + Slack)
                {
                    continue;
                }

                (up[i], down[i]) = (Math.Max(up[i], j), Math.Min(down[i], j));
            }
        }

        MayStay = C[Now] >= rules.LowC - Slack && C[Now] <= rules.HighC + Slack;
    }

    public double[] C { get; }

    /// <summary>Where it stands.</summary>
    public int Now { get; }

    /// <summary>Positions inside the safe band that lie on the dial's scale.</summary>
    public int[] Holds { get; }

    /// <summary>Whether it stands inside the safe band.</summary>
    public bool MayStay { get; }

    private int OffScale { get; } = -1;

    /// <summary>One day's turn: as far as a day allows. The same position when it is there, or when no step is small enough.</summary>
    public int Toward(int from, int to) => to > from ? Math.Min(up[from], to) : Math.Max(down[from], to);

    /// <summary>How many turns it takes; null when no step is small enough.</summary>
    public int? TurnsBetween(int from, int to)
    {
        var turns = 0;
        for (; from != to; turns++)
        {
            var next = Toward(from, to);
            if (next == from)
            {
                return null;
            }

            from = next;
        }

        return turns;
    }

    private static List<double> OnScale(TemperatureUnit dial, double lowC, double highC)
    {
        var (low, high) = dial == TemperatureUnit.F
            ? (new Celsius(lowC).Fahrenheit, new Celsius(highC).Fahrenheit)
            : (lowC * 2, highC * 2);
        var (first, last) = ((int)Math.Ceiling(low - Slack), (int)Math.Floor(high + Slack));
        return [.. Enumerable.Range(first, Math.Max(0, last - first + 1)).Select(n => dial == TemperatureUnit.F ? Celsius.FromFahrenheit(n).Degrees : n / 2.0)];
    }
}
