using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// The programme's own number: the plain mean over tanks that have or had eggs, so that a small tank counts as much as a large one. It is
/// there to be made smaller.
/// </summary>
/// <param name="Average">Over the season so far, hours.</param>
/// <param name="Weeks">Week by week from the first eggs on, the week under way last.</param>
public sealed record NotKnownOfProgramme(double Average, int Tanks, IReadOnlyList<NotKnownWeek> Weeks)
{
    private const int DaysOfWeek = 7;

    /// <summary>Null before any tank has been with eggs for a moment.</summary>
    public static NotKnownOfProgramme? Of(IReadOnlyCollection<HoursNotKnown> tanks, ProgrammeClock clock, DateOnly firstDay, DateTime now)
    {
        var seasons = tanks.Select(t => t.Whole).OfType<NotKnown>().ToList();
        return seasons.Count == 0
            ? null
            : new NotKnownOfProgramme(seasons.Average(t => t.Average), seasons.Count, [.. WeeksOf(tanks, clock, firstDay, now)]);
    }

    private static IEnumerable<NotKnownWeek> WeeksOf(IReadOnlyCollection<HoursNotKnown> tanks, ProgrammeClock clock, DateOnly firstDay, DateTime now)
    {
        var today = clock.Day(now);
        for (var monday = MondayOf(firstDay); monday <= today; monday = monday.AddDays(DaysOfWeek))
        {
            var (from, to) = (clock.Utc(monday, TimeOnly.MinValue), clock.Utc(monday.AddDays(DaysOfWeek), TimeOnly.MinValue));
            var ages = tanks.Select(t => t.MeanAge(from, to < now ? to : now)).OfType<double>().ToList();
            if (ages.Count > 0)
            {
                yield return new NotKnownWeek(monday, ages.Average(), ages.Count);
            }
        }
    }

    private static DateOnly MondayOf(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + DaysOfWeek - 1) % DaysOfWeek));
}
