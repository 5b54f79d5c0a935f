using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>How long nobody could have noticed anything at a tank.</summary>
/// <param name="Now">Hours since the last look.</param>
/// <param name="Longest">The longest gap between two looks, hours; the open one counts.</param>
/// <param name="LongestFrom">Where the longest gap began.</param>
/// <param name="Average">Mean age of what was known, hours.</param>
public sealed record NotKnown(double Now, double Longest, DateTime LongestFrom, double Average);

/// <summary>One week of the programme, from its Monday.</summary>
/// <param name="Average">Plain mean over tanks of the mean age of what was known that week, hours.</param>
/// <param name="Tanks">Tanks with fish in that week.</param>
public sealed record NotKnownWeek(DateOnly Monday, double Average, int Tanks);

/// <summary>
/// The looks at one tank, folded into days, and from them the age of what is known. At any moment that age is the time since the last look;
/// over a gap of g hours it grows from 0 to g, which adds g²/2, so its mean over a season is the sum of squared gaps over twice the hours (a
/// textbook renewal argument: mean age under inspection). All hours count, not school hours alone, because fish die at weekends too. A late
/// reading that fills a gap lowers it.
/// </summary>
public sealed class HoursNotKnown
{
    private readonly List<TankDay> days;
    private readonly DateTime start, end;

    /// <param name="days">The tank's days since its eggs came, ascending.</param>
    /// <param name="start">When the eggs came; whoever brought them looked.</param>
    /// <param name="end">Now, or when the last fish left.</param>
    public HoursNotKnown(IEnumerable<TankDay> days, DateTime start, DateTime end)
    {
        this.days = [.. days.Where(d => d.FirstAt <= end)];
        this.start = this.days is [var first, ..] && first.FirstAt < start ? first.FirstAt : start;
        this.end = end > this.start ? end : this.start;
    }

    /// <summary>Over the whole time; null when there was none.</summary>
    public NotKnown? Whole
    {
        get
        {
            if (end <= start)
            {
                return null;
            }

            var longest = Gaps().Select(g => (g.From, Hours: (g.To - g.From).TotalHours)).Concat(WithinDays()).MaxBy(g => g.Hours);
            return new NotKnown((end - LastLook).TotalHours, longest.Hours, longest.From, MeanAge(start, end)!.Value);
        }
    }

    private DateTime LastLook => days.Count > 0 && days[^1].LastAt < end ? days[^1].LastAt : days.Count > 0 ? end : start;

    /// <summary>Mean age of what was known between two instants, hours; null where the tank had no fish. Cut at midnights of local days.</summary>
    public double? MeanAge(DateTime from, DateTime to)
    {
        var (first, last) = (from > start ? from : start, to < end ? to : end);
        return last <= first ? null : AgeHours(first, last) / (last - first).TotalHours;
    }

    /// <summary>The area under the age, hours².</summary>
    private double AgeHours(DateTime from, DateTime to)
    {
        var between = Gaps().Sum(g =>
        {
            var (low, high) = (Math.Max(0, (from - g.From).TotalHours), (Earlier(to, g.To) - g.From).TotalHours);
            return high > low ? ((high * high) - (low * low)) / 2 : 0;
        });
        return between + days.Where(d => d.FirstAt >= from && d.FirstAt < to).Sum(d => d.SquaredGapHours / 2);
    }

    /// <summary>From the start to the first look, from each day's last look to the next day's first, and from the last look to the end.</summary>
    private IEnumerable<(DateTime From, DateTime To)> Gaps()
    {
        var last = start;
        foreach (var day in days)
        {
            if (day.FirstAt > last)
            {
                yield return (last, day.FirstAt);
            }

            last = day.LastAt;
        }

        if (end > last)
        {
            yield return (last, end);
        }
    }

    /// <summary>Gaps inside a day are only known together: two looks give theirs exactly, more give their root mean square.</summary>
    private IEnumerable<(DateTime From, double Hours)> WithinDays() =>
        days.Where(d => d.Readings > 1).Select(d => (d.FirstAt, Math.Sqrt(d.SquaredGapHours / (d.Readings - 1))));

    private static DateTime Earlier(DateTime a, DateTime b) => a < b ? a : b;
}
