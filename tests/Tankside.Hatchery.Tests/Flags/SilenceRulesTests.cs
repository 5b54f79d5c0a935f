using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

public class SilenceRulesTests
{
    private static Finding? Silent(TankStory tank, int day, int hour, int minute = 0) =>
        tank.Findings(day, hour, minute).SingleOrDefault(f => f.Kind == FlagKind.Silent);

    /// <summary>Read well on the Friday before, as the newest word.</summary>
    private static TankStory ReadOnFriday() => TankStory.Eggs().Water(-5, 9, 10.5);

    [Theory]
    [InlineData(-2, 15, 15, false)]
    [InlineData(-1, 15, 14, false)]
    [InlineData(-1, 15, 15, true)]
    [InlineData(0, 8, 0, true)]
    public void A_room_is_silent_when_two_school_days_have_ended_unread(int day, int hour, int minute, bool silent) =>
        Assert.Equal(silent, Silent(ReadOnFriday(), day, hour, minute) is not null);

    [Fact]
    public void Two_unread_days_are_for_today_and_stand_on_the_second_bell()
    {
        var found = Silent(ReadOnFriday(), 0, 8)!;
        var evidence = Assert.IsType<SilenceEvidence>(found.Evidence);

        Assert.Equal((Urgency.Today, TankStory.At(-1, 15, 15)), (found.Urgency, found.StandsOn));
        Assert.Equal((2, 0, false, TankStory.At(-5, 9)), (evidence.MissedDays, evidence.AfterBreakDays, evidence.LastWasFlagged, evidence.LastAt));
    }

    [Fact]
    public void Later_silence_stands_on_the_later_bell() =>
        Assert.Equal(TankStory.At(0, 15, 15), Silent(ReadOnFriday(), 0, 16)!.StandsOn);

    [Theory]
    [InlineData(15, 14, false)]
    [InlineData(15, 15, true)]
    public void One_school_day_is_enough_after_a_bad_reading(int hour, int minute, bool silent)
    {
        var found = Silent(TankStory.Eggs().Water(-5, 9, 13), -2, hour, minute);

        Assert.Equal(silent, found is not null);
        Assert.Equal(silent ? Urgency.ActNow : null, found?.Urgency);
    }

    [Fact]
    public void Not_knowing_weighs_more_after_a_bad_reading_and_more_the_longer_it_lasts()
    {
        var calm = Silent(ReadOnFriday(), -1, 16)!.Hazard.ShareLost;

        Assert.Equal(0.25, Silent(TankStory.Eggs().Water(-5, 9, 13), -2, 16)!.Hazard.ShareLost);
        Assert.Equal(1 - Math.Exp(-1e-4 * ((4 * 24) + 7)), calm, 9);
        Assert.True(Silent(ReadOnFriday(), 2, 16)!.Hazard.ShareLost > calm);
    }

    [Fact]
    public void A_room_on_holiday_is_not_silent()
    {
        var holiday = ReadOnFriday().Closed(-2, 9);

        Assert.Null(Silent(holiday, 0, 16));
        Assert.Null(Silent(holiday, 9, 16));
    }

    [Theory]
    [InlineData(9, 55, false)]
    [InlineData(10, 0, true)]
    public void The_first_day_after_a_break_is_due_at_ten(int hour, int minute, bool silent)
    {
        var found = Silent(ReadOnFriday().Closed(-2, -1), 0, hour, minute);

        Assert.Equal(silent, found is not null);
        if (found is not null)
        {
            Assert.Equal((Urgency.ActNow, TankStory.At(0, 10)), (found.Urgency, found.StandsOn));
            Assert.Equal(4, Assert.IsType<SilenceEvidence>(found.Evidence).AfterBreakDays);
        }
    }

    [Fact]
    public void A_holiday_beside_a_weekend_is_a_break_and_a_weekend_alone_is_none()
    {
        Assert.NotNull(Silent(ReadOnFriday().Closed(-2, -2), -1, 10));
        Assert.Null(Silent(ReadOnFriday(), -2, 10));
    }

    [Fact]
    public void A_reading_in_the_break_or_on_the_morning_itself_is_enough()
    {
        Assert.Null(Silent(ReadOnFriday().Closed(-2, -1).Water(-2, 12, 10.5), 0, 11));
        Assert.Null(Silent(ReadOnFriday().Closed(-2, -1).Water(0, 8.5, 10.5), 0, 11));
    }

    [Fact]
    public void The_hour_after_a_break_is_the_programmes_own() =>
        Assert.Null(Silent(ReadOnFriday().Closed(-2, -1).With(Limits.SilentAfterBreakHour, 11), 0, 10, 30));

    [Fact]
    public void Eggs_that_nobody_ever_read_are_silent_from_their_delivery()
    {
        var never = TankStory.Eggs(); // Delivered on a Friday.

        Assert.Null(Silent(never, -2, 16));
        Assert.Null(Assert.IsType<SilenceEvidence>(Silent(never, -1, 16)!.Evidence).LastAt);
    }

    [Fact]
    public void Any_reading_at_all_breaks_the_silence() =>
        Assert.Null(Silent(ReadOnFriday().Seen(-1, 9, new Observation { Note = "All well" }), 0, 12));
}
