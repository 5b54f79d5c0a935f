using Tankside.Hatchery.Places;
using Tankside.Hatchery.Tests.Flags;

namespace Tankside.Hatchery.Tests.Places;

/// <summary>Day 0 is a Wednesday, day 2 the Friday.</summary>
public class ClosedStretchTests
{
    private static ClosedStretch At(int day, int hour, int minute = 0, TankStory? tank = null) =>
        ClosedStretch.At((tank ?? TankStory.Eggs()).Calendar, TankStory.At(day, hour, minute));

    private static (DateTime, DateTime?, int) Ends(ClosedStretch stretch) => (stretch.Bell, stretch.Opens, stretch.ClosedDays.Count);

    private static readonly (DateTime, DateTime?, int) Weekend = (TankStory.At(2, 15, 15), TankStory.At(5, 8), 2);

    [Theory]
    [InlineData(0, 6, 30)]
    [InlineData(0, 18, 0)]
    [InlineData(2, 15, 14)]
    [InlineData(2, 15, 15)]
    [InlineData(4, 23, 0)]
    [InlineData(5, 7, 59)]
    public void All_week_long_it_is_the_weekend_ahead_or_under_way(int day, int hour, int minute)
    {
        var stretch = At(day, hour, minute);

        Assert.Equal(Weekend, Ends(stretch));
        Assert.Equal((64.75, false), (stretch.Hours, stretch.IsBreak));
        Assert.Equal(TankStory.At(day, hour, minute) >= TankStory.At(2, 15, 15), stretch.HasBegun(TankStory.At(day, hour, minute)));
    }

    [Fact]
    public void Once_the_doors_open_it_is_the_next_one() => Assert.Equal(TankStory.At(9, 15, 15), At(5, 8).Bell);

    [Fact]
    public void A_snow_day_in_the_week_is_a_stretch_of_its_own() =>
        Assert.Equal((TankStory.At(0, 15, 15), TankStory.At(2, 8), 1), Ends(At(0, 10, tank: TankStory.Eggs().Closed(1, 1))));

    [Fact]
    public void A_holiday_takes_its_weekends_with_it()
    {
        var holiday = TankStory.Eggs().Closed(5, 16);

        Assert.Equal((TankStory.At(2, 15, 15), TankStory.At(19, 8), 16), Ends(At(1, 10, tank: holiday)));
        Assert.Equal((TankStory.At(2, 15, 15), TankStory.At(19, 8), 16), Ends(At(12, 10, tank: holiday)));
        Assert.True(At(1, 10, tank: holiday).IsBreak);
    }

    [Fact]
    public void With_no_school_day_in_sight_nobody_comes_for_a_week()
    {
        var summer = TankStory.Eggs().Closed(1, 300);

        Assert.Equal((TankStory.At(0, 15, 15), null, 7), Ends(At(0, 10, tank: summer)));
        Assert.Equal(TankStory.At(7, 15, 15), At(0, 10, tank: summer).Until);
        Assert.Equal((TankStory.At(3, 10), null, 7), Ends(At(3, 10, tank: summer)));
    }
}
