using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class HoursNotKnownTests
{
    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");

    private static readonly DateTime Start = TankStory.At(0, 8);

    private static HoursNotKnown Of(DateTime end, params DateTime[] looks) => new(
        TankDays.Fold(Guid.Empty, looks.Select(at => new ReadingFact(at, new Observation { Moving = true }, true)), Clock), Start, end);

    /// <summary>The age of what is known, added up minute by minute; the definition itself.</summary>
    private static double ByMinutes(IEnumerable<DateTime> looks, DateTime from, DateTime to)
    {
        var all = looks.Append(Start).Order().ToList();
        var (sum, minutes) = (0.0, 0);
        for (var at = from.AddSeconds(30); at < to; at = at.AddMinutes(1))
        {
            sum += (at - all.Last(l => l <= at)).TotalHours;
            minutes++;
        }

        return sum / minutes;
    }

    [Fact]
    public void One_look_a_day_at_the_same_hour_leaves_nobody_knowing_for_twelve_hours_on_average()
    {
        var whole = Of(TankStory.At(4, 8), TankStory.At(1, 8), TankStory.At(2, 8), TankStory.At(3, 8)).Whole!;

        Assert.Equal((12, 24, 24), (whole.Average, whole.Longest, whole.Now));
    }

    [Fact]
    public void A_weekend_weighs_by_its_square()
    {
        // Wednesday 8:00 to Friday 8:00 in two days of 24 h, then 72 h to Monday: (24² + 24² + 72²) / (2 x 120).
        var whole = Of(TankStory.At(5, 8), TankStory.At(1, 8), TankStory.At(2, 8)).Whole!;

        Assert.Equal((26.4, 72, TankStory.At(2, 8)), (whole.Average, whole.Longest, whole.LongestFrom));
    }

    [Fact]
    public void A_second_look_before_the_bell_lowers_it()
    {
        var once = Of(TankStory.At(2, 8), TankStory.At(1, 8)).Whole!;
        var twice = Of(TankStory.At(2, 8), TankStory.At(0, 15), TankStory.At(1, 8), TankStory.At(1, 15)).Whole!;

        Assert.Equal(12, once.Average);
        Assert.Equal(((7 * 7) + (17 * 17)) / 48.0, twice.Average, 9);
    }

    [Fact]
    public void A_late_old_reading_that_fills_a_gap_lowers_it_and_leaves_the_last_look_alone()
    {
        var without = Of(TankStory.At(6, 8), TankStory.At(5, 8)).Whole!;
        var with = Of(TankStory.At(6, 8), TankStory.At(5, 8), TankStory.At(3, 8)).Whole!;

        Assert.True(with.Average < without.Average);
        Assert.Equal((24, 24), (without.Now, with.Now));
        Assert.Equal((120, 72), (without.Longest, with.Longest));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void The_sum_over_days_is_the_age_added_up_minute_by_minute(int seed)
    {
        var random = new Random(seed);
        var end = TankStory.At(16, 11);
        DateTime[] looks = [.. Enumerable.Range(0, 40).Select(_ => Start.AddMinutes(random.Next((int)(end - Start).TotalMinutes)))];
        var tank = Of(end, looks);

        Assert.Equal(ByMinutes(looks, Start, end), tank.Whole!.Average, 2);
        for (var day = 0; day < 14; day += 7)
        {
            var (from, to) = (TankStory.At(day + 1, 0), TankStory.At(day + 8, 0));
            Assert.Equal(ByMinutes(looks, from, to), tank.MeanAge(from, to)!.Value, 2);
        }
    }

    [Fact]
    public void It_begins_with_the_eggs_and_ends_with_the_last_fish()
    {
        var ended = Of(TankStory.At(1, 8), TankStory.At(0, 20), TankStory.At(9, 8));

        Assert.Equal((12, 12), (ended.Whole!.Longest, ended.Whole.Now));
        Assert.Null(ended.MeanAge(TankStory.At(2, 0), TankStory.At(3, 0)));
        Assert.Null(Of(Start).Whole);
        Assert.Equal(TankStory.At(0, 7), Of(TankStory.At(1, 7), TankStory.At(0, 7)).Whole!.LongestFrom);
    }

    [Fact]
    public void The_programmes_number_is_the_plain_mean_over_tanks_and_its_weeks_begin_on_mondays()
    {
        var daily = Of(TankStory.At(7, 8), [.. Enumerable.Range(1, 6).Select(d => TankStory.At(d, 8))]);
        var never = Of(TankStory.At(7, 8));

        var programme = NotKnownOfProgramme.Of([daily, never], Clock, TankStory.Wednesday, TankStory.At(7, 8))!;

        Assert.Equal(((12 + 84) / 2.0, 2), (programme.Average, programme.Tanks));
        Assert.Equal([TankStory.Wednesday.AddDays(-2), TankStory.Wednesday.AddDays(5)], programme.Weeks.Select(w => w.Monday));
        Assert.Equal(daily.MeanAge(TankStory.At(5, 0), TankStory.At(7, 8))! / 2 + never.MeanAge(TankStory.At(5, 0), TankStory.At(7, 8))! / 2, programme.Weeks[1].Average);
        Assert.Null(NotKnownOfProgramme.Of([], Clock, TankStory.Wednesday, TankStory.At(7, 8)));
    }
}
