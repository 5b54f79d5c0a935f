using Tankside.Hatchery.Kit;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Kit;

public class IcePlanTests
{
    /// <summary>
    /// Worked by hand at 21 °C in the room and 11 °C in the water: 3.6 x (UA x 10 + 15 W of the pump) / (334 + 4.19 x 11) kg an hour, UA from the
    /// computed time constants: 18.5 W/K for 55 gallons of bare glass (13.1 h), 3.63 in foam (66.6 h), 5.43 for 10 gallons (8.1 h).
    /// </summary>
    [Theory]
    [InlineData(208.2, Jacket.None, 1.89)]
    [InlineData(208.2, Jacket.Foam, 0.487)]
    [InlineData(37.85, Jacket.None, 0.657)]
    public void The_ice_of_a_day_is_what_holds_room_and_pump_for_twenty_four_hours(double litres, Jacket jacket, double kgAnHour) =>
        Assert.Equal(kgAnHour * 24, IcePlan.For(litres, jacket, 21, 11)!.KgADay.Mid, kgAnHour * 0.24);

    [Fact]
    public void Bottles_are_counted_by_the_near_end_and_changed_within_twelve_hours()
    {
        var plan = IcePlan.For(208, Jacket.None, 21, 11)!;

        Assert.True(plan.KgADay.Low < plan.KgADay.Mid && plan.KgADay.Mid < plan.KgADay.High);
        Assert.True(plan.BottlesADay * IcePlan.BottleKg >= plan.KgADay.High);
        Assert.True((plan.BottlesADay - 1) * IcePlan.BottleKg < plan.KgADay.High);
        Assert.InRange(plan.ChangeHours, 1, IcePlan.LongestHours);
        Assert.True(plan.AtATime * 24 / plan.ChangeHours >= plan.BottlesADay - 1e-9);
    }

    [Fact]
    public void A_room_no_warmer_than_the_water_needs_no_ice() => Assert.Null(IcePlan.For(208, Jacket.Foam, 8, 14));
}
