namespace Tankside.Portal.Shell.Charts;

/// <summary>Closed days, both ends included, in the programme's local calendar.</summary>
/// <param name="From">First closed day.</param>
/// <param name="To">Last closed day.</param>
public sealed record ClosedDays(DateOnly From, DateOnly To);

/// <summary>Places local times along a chart as a share of its width.</summary>
public sealed record DateAxis(DateTime From, DateTime To)
{
    /// <summary>0 at the left edge, 1 at the right; outside values are cut to the edges.</summary>
    public double Share(DateTime at) => Math.Clamp((at - From) / (To - From), 0, 1);

    public double Share(DateOnly day) => Share(day.ToDateTime(TimeOnly.MinValue));

    /// <summary>Ticks at whole steps, from six hours to four weeks (weeks from Monday), at most about ten.</summary>
    public IReadOnlyList<DateTime> Ticks()
    {
        var hours = (To - From).TotalHours;
        var step = hours switch
        {
            <= 40 => 6,
            <= 80 => 12,
            <= 9.5 * 24 => 24,
            <= 63 * 24 => 7 * 24,
            <= 130 * 24 => 14 * 24,
            _ => 28 * 24,
        };
        var tick = From.Date;
        if (step > 24) tick = tick.AddDays(-(((int)tick.DayOfWeek + 6) % 7));
        var ticks = new List<DateTime>();
        for (; tick <= To; tick = tick.AddHours(step))
            if (tick >= From) ticks.Add(tick);
        return ticks;
    }

    /// <summary>True when the ticks stand less than a day apart and want a clock time.</summary>
    public bool ShowsHours => (To - From).TotalHours <= 80;

    /// <summary>The visible part of each closed stretch, as left edge and width.</summary>
    public IEnumerable<(double Left, double Width)> Closed(IEnumerable<ClosedDays> stretches)
    {
        foreach (var stretch in stretches)
        {
            var left = Share(stretch.From);
            var width = Share(stretch.To.AddDays(1)) - left;
            if (width > 0) yield return (left, width);
        }
    }
}
