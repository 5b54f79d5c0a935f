using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Tests.People;

public class ProgrammeClockTests
{
    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");

    private static readonly DateOnly Spring = new(2027, 3, 14);

    private static readonly DateOnly Autumn = new(2027, 11, 7);

    private static DateTime Utc(DateOnly day, int hour, int minute = 0) => day.ToDateTime(new TimeOnly(hour, minute), DateTimeKind.Utc);

    [Fact]
    public void The_day_is_the_programmes_own_not_the_servers()
    {
        Assert.Equal(new DateOnly(2027, 1, 19), Clock.Day(Utc(new DateOnly(2027, 1, 20), 7, 59)));
        Assert.Equal(new DateOnly(2027, 1, 20), Clock.Day(Utc(new DateOnly(2027, 1, 20), 8)));
        Assert.Equal(new DateOnly(2027, 7, 20), Clock.Day(Utc(new DateOnly(2027, 7, 20), 7)));
    }

    [Fact]
    public void A_time_that_spring_skips_is_moved_forward_by_the_skipped_hour()
    {
        Assert.Equal(Utc(Spring, 9, 59), Clock.Utc(Spring, new TimeOnly(1, 59)));
        Assert.Equal(Utc(Spring, 10, 30), Clock.Utc(Spring, new TimeOnly(2, 30)));
        Assert.Equal(Utc(Spring, 10), Clock.Utc(Spring, new TimeOnly(3, 0)));
        Assert.Equal(new TimeOnly(3, 30), TimeOnly.FromDateTime(Clock.Local(Utc(Spring, 10, 30))));
    }

    [Fact]
    public void A_time_that_comes_twice_in_autumn_is_the_first_of_the_two()
    {
        Assert.Equal(Utc(Autumn, 8, 30), Clock.Utc(Autumn, new TimeOnly(1, 30)));
        Assert.Equal(Utc(Autumn, 10), Clock.Utc(Autumn, new TimeOnly(2, 0)));
        Assert.Equal(Clock.Local(Utc(Autumn, 8, 30)), Clock.Local(Utc(Autumn, 9, 30)));
    }

    [Fact]
    public void Every_other_hour_of_the_year_comes_back_as_it_went()
    {
        for (var at = Utc(new DateOnly(2027, 1, 1), 0); at.Year == 2027; at = at.AddHours(1))
        {
            var local = Clock.Local(at);
            var second = Clock.Zone.IsAmbiguousTime(local) && Clock.Local(at.AddHours(-1)) == local;
            var back = Clock.Utc(DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local));

            Assert.Equal(second ? at.AddHours(-1) : at, back);
            Assert.Equal(DateTimeKind.Utc, back.Kind);
        }
    }
}
