namespace Tankside.Portal.Shell.Charts;

/// <summary>Places values on a chart's height, with ticks at round numbers.</summary>
public sealed record ValueAxis(double Low, double High, double Step, double TopPx, double BottomPx)
{
    /// <summary>An axis that holds all values, cut at round numbers, with about four to six ticks.</summary>
    public static ValueAxis For(IEnumerable<double> values, double topPx, double bottomPx, double smallestStep = 0)
    {
        var all = values.ToList();
        var low = all.Count == 0 ? 0 : all.Min();
        var high = all.Count == 0 ? 1 : all.Max();
        if (high - low < 1e-9) high = low + 1;
        var step = Math.Max(RoundStep((high - low) / 4), smallestStep);
        return new(Math.Floor(low / step + 1e-9) * step, Math.Ceiling(high / step - 1e-9) * step, step, topPx, bottomPx);
    }

    public double Y(double value) => BottomPx - (value - Low) / (High - Low) * (BottomPx - TopPx);

    public IEnumerable<double> Ticks()
    {
        var count = (int)Math.Round((High - Low) / Step);
        for (var i = 0; i <= count; i++) yield return Low + i * Step;
    }

    private static double RoundStep(double rough)
    {
        var size = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return size * ((rough / size) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 });
    }
}
