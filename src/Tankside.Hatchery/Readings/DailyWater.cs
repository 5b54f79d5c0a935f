using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Readings;

/// <summary>The water of a tank day by day, as its development is reckoned from.</summary>
internal static class DailyWater
{
    /// <summary>Error of a day's mean from one or two looks, °C (thermometers at 0.3 to 0.5).</summary>
    private const double ReadDaySd = 0.3;

    /// <summary>Error of a day that nobody read, °C: it lies between its neighbours, but how, nobody knows (common practice).</summary>
    private const double UnreadDaySd = 1.0;

    /// <summary>One temperature a day from delivery to yesterday; unread days interpolated, ends held at what is known or the set point.</summary>
    public static List<DayTemperature> Of(DateOnly from, DateOnly today, IReadOnlyList<TankDay> days, double setPointC)
    {
        var known = days.Where(d => d.MeanC is not null && d.Day >= from && d.Day < today).ToList();
        var result = new List<DayTemperature>(Math.Max(0, today.DayNumber - from.DayNumber));
        var next = 0;
        for (var day = from; day < today; day = day.AddDays(1))
        {
            while (next < known.Count && known[next].Day < day)
            {
                next++;
            }

            if (next < known.Count && known[next].Day == day)
            {
                result.Add(new DayTemperature(new Celsius(known[next].MeanC!.Value), ReadDaySd));
                continue;
            }

            var before = next > 0 ? known[next - 1] : null;
            var after = next < known.Count ? known[next] : null;
            result.Add(new DayTemperature(new Celsius(Between(day, before, after, setPointC)), UnreadDaySd));
        }

        return WithSharedGapError(result);
    }

    /// <summary>
    /// The days of one gap are wrong together, not each for itself: a gap of n days has n times one day's error. As the sum adds days up as
    /// independent, each is given the error times the root of n.
    /// </summary>
    private static List<DayTemperature> WithSharedGapError(List<DayTemperature> days)
    {
        for (var first = 0; first < days.Count;)
        {
            var end = first;
            while (end < days.Count && days[end].ErrorSd == UnreadDaySd)
            {
                end++;
            }

            for (var i = first; i < end; i++)
            {
                days[i] = days[i] with { ErrorSd = UnreadDaySd * Math.Sqrt(end - first) };
            }

            first = end + 1;
        }

        return days;
    }

    private static double Between(DateOnly day, TankDay? before, TankDay? after, double setPointC) => (before, after) switch
    {
        ({ } b, { } a) => b.MeanC!.Value
            + ((a.MeanC!.Value - b.MeanC!.Value) * (day.DayNumber - b.Day.DayNumber) / (a.Day.DayNumber - b.Day.DayNumber)),
        ({ } b, null) => (b.MeanC!.Value + setPointC) / 2,
        (null, { } a) => (a.MeanC!.Value + setPointC) / 2,
        _ => setPointC,
    };
}
