using Tankside.Hatchery.Flags;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

public class HazardTests
{
    private static readonly DateTime From = TankStory.At(0, 9);

    [Fact]
    public void Half_the_share_is_lost_at_the_middle_and_a_tenth_and_nine_tenths_at_the_ends()
    {
        var hazard = Hazard.Around(From, 24, 0.4);

        Assert.Equal(0.04, hazard.LostBy(From.AddHours(8)), 6);
        Assert.Equal(0.20, hazard.LostBy(From.AddHours(24)), 6);
        Assert.Equal(0.36, hazard.LostBy(From.AddHours(72)), 6);
        Assert.Equal(0.40, hazard.LostBy(From.AddDays(900)), 6);
    }

    [Fact]
    public void Nothing_is_lost_before_it_begins()
    {
        Assert.Equal(0, Hazard.Around(From, 24, 0.4).LostBy(From));
        Assert.Equal(0, Hazard.Around(From, 24, 0.4).LostBy(From.AddHours(-5)));
    }

    [Fact]
    public void A_hazard_without_time_takes_its_share_at_once() =>
        Assert.Equal(0.4, new Hazard(From, new Band(0, 0, 0), 0.4, null).LostBy(From.AddMinutes(1)));

    [Fact]
    public void The_loss_follows_the_limit_by_its_tolerance()
    {
        var hazard = Hazard.AfterLimit(From, new Band(2, 5, 12), 24, 0.7);

        Assert.Equal(new Band(2 + 8, 5 + 24, 12 + 72), hazard.HoursToHarm);
        Assert.Equal(new Band(2, 5, 12), hazard.HoursLeft);
    }

    [Fact]
    public void Hours_left_run_down_and_end_at_none()
    {
        var hazard = Hazard.AfterLimit(From, new Band(2, 5, 12), 24, 0.7);

        Assert.Equal(new Band(0, 2, 9), hazard.HoursLeftAt(From.AddHours(3)));
        Assert.Equal(new Band(0, 0, 0), hazard.HoursLeftAt(From.AddHours(13)));
        Assert.Null(Hazard.Around(From, 24, 0.4).HoursLeftAt(From));
    }

    [Fact]
    public void A_limit_that_is_passed_already_leaves_fish_worth_a_call()
    {
        var hazard = Hazard.AfterLimit(From.AddHours(-8), new Band(0, 0, 0), 24, 0.7);

        Assert.InRange(hazard.LostBy(From), 0.01, 0.2);
    }
}
