using Tankside.Hatchery.Flags;

namespace Tankside.Hatchery.Tests.Flags;

public class ActTimesTests
{
    private static (DateTime, DateTime) Times(int day, int hour, int minute = 0, TankStory? tank = null) =>
        MorningRound.ActTimes((tank ?? TankStory.Eggs()).Calendar, TankStory.At(day, hour, minute));

    [Fact]
    public void Early_in_the_morning_somebody_acts_half_an_hour_after_the_door_opens_or_else_tomorrow() =>
        Assert.Equal((TankStory.At(0, 8, 30), TankStory.At(1, 8, 30)), Times(0, 6, 30));

    [Fact]
    public void During_class_somebody_acts_in_half_an_hour_or_else_tomorrow() =>
        Assert.Equal((TankStory.At(0, 10, 45), TankStory.At(1, 8, 30)), Times(0, 10, 15));

    [Theory]
    [InlineData(14, 45, 15, 15)]
    [InlineData(15, 5, 15, 35)]
    [InlineData(15, 14, 15, 44)]
    public void Before_the_bell_a_call_still_reaches_the_adult_at_the_tank(int hour, int minute, int actsHour, int actsMinute) =>
        Assert.Equal((TankStory.At(0, actsHour, actsMinute), TankStory.At(1, 8, 30)), Times(0, hour, minute));

    [Fact]
    public void On_friday_evening_a_call_finds_a_key_and_without_one_nobody_looks_till_monday() =>
        Assert.Equal((TankStory.At(2, 21, 30), TankStory.At(5, 8, 30)), Times(2, 18));

    [Fact]
    public void On_friday_in_class_the_next_chance_is_monday() =>
        Assert.Equal((TankStory.At(2, 10, 30), TankStory.At(5, 8, 30)), Times(2, 10));

    [Fact]
    public void Before_a_holiday_the_next_chance_is_the_first_day_back()
    {
        var holiday = TankStory.Eggs().Closed(1, 9);

        Assert.Equal((TankStory.At(0, 10, 30), TankStory.At(12, 8, 30)), Times(0, 10, 0, holiday));
        Assert.Equal((TankStory.At(0, 15, 35), TankStory.At(12, 8, 30)), Times(0, 15, 5, holiday));
        Assert.Equal((TankStory.At(0, 21, 30), TankStory.At(12, 8, 30)), Times(0, 18, 0, holiday));
    }

    [Fact]
    public void With_no_school_day_in_sight_a_caretaker_comes_in_a_day_or_nobody_for_a_week()
    {
        var summer = TankStory.Eggs().Closed(0, 300);

        Assert.Equal((TankStory.At(1, 10), TankStory.At(8, 10)), Times(0, 10, 0, summer));
    }

    [Fact]
    public void On_the_last_day_before_a_summer_nobody_else_comes_for_a_week()
    {
        var last = TankStory.Eggs().Closed(1, 300);

        Assert.Equal((TankStory.At(0, 10, 30), TankStory.At(7, 15, 15)), Times(0, 10, 0, last));
        Assert.Equal((TankStory.At(0, 15, 35), TankStory.At(7, 15, 15)), Times(0, 15, 5, last));
    }

    [Fact]
    public void A_call_never_acts_later_than_no_call()
    {
        var tank = TankStory.Eggs().Closed(5, 9).Closed(26, 200);
        for (var now = TankStory.At(-3, 0); now < TankStory.At(30, 0); now = now.AddMinutes(7))
        {
            var (ifCalled, ifNot) = MorningRound.ActTimes(tank.Calendar, now);

            Assert.True(now < ifCalled && ifCalled <= ifNot, $"{now:u}: {ifCalled:u}, {ifNot:u}");
        }
    }
}
