using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

public class WarmingRulesTests
{
    private static Finding? Warming(TankStory tank, int hour = 12) => WarmingRules.WarmingFast(tank.Situation(0, hour));

    private static WarmingEvidence Numbers(Finding? found) => Assert.IsType<WarmingEvidence>(found!.Evidence);

    [Theory]
    [InlineData(11.61, true)]
    [InlineData(11.59, false)]
    public void A_rise_of_the_step_over_the_last_reading_is_warming(double celsius, bool warming) =>
        Assert.Equal(warming, Warming(TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, celsius)) is not null);

    [Theory]
    [InlineData(11.5, true)]
    [InlineData(11.49, false)]
    public void Only_water_above_the_set_point_is_warming(double celsius, bool warming) =>
        Assert.Equal(warming, Warming(TankStory.Eggs().Water(-1, 9, 9).Water(0, 9, celsius)) is not null);

    [Fact]
    public void Small_steps_within_a_day_add_up() =>
        Assert.NotNull(Warming(TankStory.Eggs().Water(0, 8, 10.8).Water(0, 9, 11.2).Water(0, 10, 11.6).Water(0, 11, 12)));

    [Fact]
    public void A_logger_that_reads_each_ten_minutes_sees_the_same_rise_as_one_that_reads_each_hour()
    {
        var (minutes, hours) = (TankStory.Eggs(), TankStory.Eggs());
        for (var i = 0; i <= 12; i++)
        {
            minutes.Water(0, 9 + (i / 6.0), Math.Round(10.5 + (i * 0.15), 2));
        }

        hours.Water(0, 9, 10.5).Water(0, 10, 11.4).Water(0, 11, 12.3);

        Assert.NotNull(Warming(hours));
        Assert.NotNull(Warming(minutes));
        Assert.Equal(Numbers(Warming(hours)).WaterC, Numbers(Warming(minutes)).WaterC);
    }

    [Fact]
    public void Water_that_falls_again_is_not_warming()
    {
        Assert.Null(Warming(TankStory.Eggs().Water(-1, 14, 10.5).Water(0, 8, 14).Water(0, 11, 13)));
        Assert.Null(Warming(TankStory.Eggs().Water(-1, 14, 10.5).Water(0, 8, 14).Water(0, 11, 14)));
    }

    [Fact]
    public void A_single_reading_is_no_rise_and_neither_is_one_after_a_long_gap()
    {
        Assert.Null(Warming(TankStory.Eggs().Water(0, 9, 13)));
        Assert.Null(Warming(TankStory.Fry().Water(-5, 9, 10.5).Water(0, 9, 13)));
        Assert.NotNull(Warming(TankStory.Fry().Water(-4, 9, 10.5).Water(0, 9, 13)));
    }

    [Fact]
    public void With_readings_far_apart_the_pace_is_the_tanks_size()
    {
        var found = Warming(TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, 12.5));
        var small = Warming(TankStory.Eggs().Tank(t => t with { Litres = 38 }).Water(-1, 9, 10.5).Water(0, 9, 12.5));
        var (tau, _) = Science.Heat.Warming.TimeConstant(new Litres(208), Jacket.None);

        Assert.False(Numbers(found).OwnSlope);
        Assert.Equal((Numbers(found).SettlesAtC - 12.5) / tau, Numbers(found).PerHour, 9);
        Assert.True(small!.Hazard.HoursLeft!.Value.Mid < found!.Hazard.HoursLeft!.Value.Mid);
    }

    [Fact]
    public void Two_near_readings_of_its_own_take_over_from_the_size()
    {
        var slow = Warming(TankStory.Eggs().Water(0, 6, 11.8).Water(0, 12, 13), 13);
        var fast = Warming(TankStory.Eggs().Water(0, 9, 11.8).Water(0, 12, 14.8), 13);

        Assert.True(Numbers(slow).OwnSlope);
        Assert.True(Numbers(fast).OwnSlope);
        Assert.True(Numbers(slow).PerHour < 0.8 * BySize(slow), $"{Numbers(slow).PerHour} °C an hour, {BySize(slow)} by size");
        Assert.True(Numbers(fast).PerHour > 1.2 * BySize(fast), $"{Numbers(fast).PerHour} °C an hour, {BySize(fast)} by size");

        static double BySize(Finding? f) =>
            (Numbers(f).SettlesAtC - Numbers(f).WaterC) / Science.Heat.Warming.TimeConstant(new Litres(208), Jacket.None).MidHours;
    }

    [Fact]
    public void The_own_slope_ends_twelve_hours_back()
    {
        Assert.True(Numbers(Warming(TankStory.Eggs().Water(-1, 22, 11).Water(0, 10, 13))).OwnSlope);
        Assert.False(Numbers(Warming(TankStory.Eggs().Water(-1, 21.9, 11).Water(0, 10, 13))).OwnSlope);
    }

    [Fact]
    public void A_rise_that_began_between_two_readings_may_be_faster_than_its_slope()
    {
        static double Width(Finding? f) => Numbers(f) is { PassesAt: { } p } ? (p.High - p.Low) / (p.Mid - Numbers(f).At) : 0;
        var fromSetPoint = Width(Warming(TankStory.Eggs().Water(0, 4, 11.4).Water(0, 12, 14.2), 13));
        var wellOnItsWay = Width(Warming(TankStory.Eggs().Water(0, 4, 11.6).Water(0, 12, 14.4), 13));

        Assert.True(fromSetPoint > 1.3 * wellOnItsWay, $"{fromSetPoint} against {wellOnItsWay}");
    }

    [Fact]
    public void The_evidence_counts_from_the_reading_to_the_heat_limit()
    {
        var found = Warming(TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, 12.5))!;
        var hours = found.Hazard.HoursLeft!.Value;
        var numbers = Numbers(found);

        Assert.Equal((12.5, TankStory.At(0, 9), 10.5, TankStory.At(-1, 9), 15.0), (numbers.WaterC, numbers.At, numbers.EarlierC, numbers.EarlierAt, numbers.Limit));
        Assert.Equal(TankStory.At(0, 9).AddHours(hours.Mid), numbers.PassesAt!.Mid);
        Assert.Equal(hours.Mid + 24, found.Hazard.HoursToHarm.Mid, 9);
        Assert.Equal(0.7, found.Hazard.ShareLost);
    }

    [Fact]
    public void Where_the_room_stops_it_below_the_limit_no_hours_are_told()
    {
        var found = Warming(TankStory.Eggs().Tank(t => t with { RoomC = 12.5 }).Water(-1, 9, 10.5).Water(0, 9, 12))!;

        Assert.Null(found.Hazard.HoursLeft);
        Assert.Null(Numbers(found).PassesAt);
        Assert.Equal(Urgency.Today, found.Urgency);
    }

    [Fact]
    public void A_room_temperature_of_the_last_day_wins_over_the_usual_one()
    {
        var tank = TankStory.Eggs().Water(-1, 9, 10.5).Water(0, 9, 12);

        Assert.NotNull(Warming(tank)!.Hazard.HoursLeft);
        Assert.Null(Warming(tank.Seen(0, 10, new() { RoomC = 12.5 }))!.Hazard.HoursLeft);
    }

    [Theory]
    [InlineData(19, Jacket.None, Urgency.ActNow)]
    [InlineData(12.5, Jacket.Foam, Urgency.Today)]
    public void It_cannot_wait_when_the_limit_may_be_passed_before_somebody_is_next_there(double celsius, Jacket jacket, Urgency urgency) =>
        Assert.Equal(urgency, Warming(TankStory.Fry().Tank(t => t with { Jacket = jacket }).Water(-1, 9, 10.5).Water(0, 9, celsius))!.Urgency);

    [Fact]
    public void A_limit_beyond_the_horizon_is_no_news()
    {
        var slow = TankStory.Fry().Tank(t => t with { Jacket = Jacket.Foam, Litres = 1000, RoomC = 19 }).Water(-1, 9, 10.5).Water(0, 9, 11.7);

        Assert.Null(Warming(slow));
        Assert.NotNull(Warming(slow.With(Limits.WarmingHorizon, 500)));
    }
}
