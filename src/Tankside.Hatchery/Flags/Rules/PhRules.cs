
namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Water that turns acid: below the limit, or falling week by week as soft water does when it has nothing left to hold it.</summary>
public static class PhRules
{
    /// <summary>Readings that lie on their line better than this are still not surer than it, pH.</summary>
    private const double FinestNoise = 0.05;

    /// <summary>A newest reading this far above the lowest has turned, pH.</summary>
    private const double Turned = 0.2;

    /// <summary>A fall of several days' readings: median of all slopes between them, so that one odd colour does not make it.</summary>
    private readonly record struct Fall(double PerWeek, double InAll, DateTime From, double FromPh);

    public static Finding? PhSag(Situation s)
    {
        if (s.LastTold(r => r.Ph) is not { } last || last.At < s.Now.AddDays(-s.Limits[Limits.PhAge]))
        {
            return null;
        }

        var low = s.Limits[Limits.PhLow];
        var ph = last.Seen.Ph!.Value;
        var isLow = ph < low;
        var fall = Falling(s);
        if (!isLow && fall is null)
        {
            return null;
        }

        var evidence = new PhEvidence(s.Stage, ph, last.At, isLow ? low : null, fall is { } f ? Math.Round(f.PerWeek, 2) : null, fall?.FromPh, fall?.From);
        var hazard = Hazard.Around(
            last.At, s.Limits[Limits.Losses.PhHours], s.Limits[isLow ? Limits.Losses.PhLowShare : Limits.Losses.PhFallShare]);
        return new Finding(FlagKind.PhSag, isLow ? Urgency.Today : Urgency.ThisWeek, last.At, evidence, hazard);
    }

    /// <summary>
    /// Kits are matched by colour, to 0.2 or 0.5: two readings have to differ by more than that. Three or more have to lie near a line
    /// that falls far enough, by more than two of their own steps.
    /// </summary>
    private static Fall? Falling(Situation s)
    {
        var days = s.Told.Where(r => r.Seen.Ph is not null)
            .GroupBy(r => s.Record.Calendar.Clock.Day(r.At))
            .Select(g => (g.First().At, Ph: Median([.. g.Select(r => r.Seen.Ph!.Value)])))
            .ToList();
        if (days.Count < 2 || (days[^1].At - days[0].At).TotalDays < s.Limits[Limits.PhSpan] || days[^1].Ph > days.Min(d => d.Ph) + Turned)
        {
            return null;
        }

        var points = days.Select(d => (X: (d.At - days[0].At).TotalDays, Y: d.Ph)).ToList();
        var slope = Median([.. points.SelectMany((a, i) => points.Skip(i + 1).Select(b => (b.Y - a.Y) / (b.X - a.X)))]);
        var fall = new Fall(-7 * slope, -slope * points[^1].X, days[0].At, days[0].Ph);
        var enough = points.Count == 2 ? s.Limits[Limits.PhFallOfTwo] : Math.Max(s.Limits[Limits.PhFallLeast], 2 * Step(points));
        return Math.Round(fall.PerWeek, 3) >= s.Limits[Limits.PhFall] && Math.Round(fall.InAll, 3) >= enough && IsSure(s, points, slope) ? fall : null;
    }

    /// <summary>The smallest difference that these readings show between neighbours: what the kit can tell apart.</summary>
    private static double Step(List<(double X, double Y)> points) =>
        points.Zip(points.Skip(1), (a, b) => Math.Round(Math.Abs(a.Y - b.Y), 3)).Where(d => d > 0).DefaultIfEmpty(0).Min();

    private static bool IsSure(Situation s, List<(double X, double Y)> points, double slope)
    {
        if (points.Count == 2)
        {
            return true;
        }

        var start = Median([.. points.Select(p => p.Y - (slope * p.X))]);
        var left = points.Sum(p => Math.Pow(p.Y - start - (slope * p.X), 2));
        var noise = Math.Max(FinestNoise, Math.Sqrt(left / (points.Count - 2)));
        var middle = points.Average(p => p.X);
        var error = noise / Math.Sqrt(points.Sum(p => Math.Pow(p.X - middle, 2)));
        return -slope >= s.Limits[Limits.PhFallSure] * error;
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        var half = values.Count / 2;
        return values.Count % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }
}
