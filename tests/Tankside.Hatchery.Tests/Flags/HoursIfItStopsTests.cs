using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>What a card on the wall may say of a tank's hours.</summary>
public class HoursIfItStopsTests
{
    private static HoursIfItStops Of(TankStory tank) => HoursIfItStops.Of(tank.Record, TankStory.At(2, 14))!;

    [Fact]
    public void The_hours_do_not_change_with_the_last_reading()
    {
        var (unread, warm) = (Of(TankStory.Eggs()), Of(TankStory.Eggs().Seen(2, 9, new Observation { WaterC = 14 })));

        Assert.Equal(unread, warm);
        Assert.Equal(15, unread.LimitC);
    }

    [Fact]
    public void A_jacket_holds_the_cold_longer_and_a_standing_pump_gives_no_heat()
    {
        var (bare, foam) = (Of(TankStory.Eggs()), Of(TankStory.Eggs().Tank(t => t with { Jacket = Jacket.Foam })));

        Assert.True(foam.ChillerHeat!.Value.Mid > 1.5 * bare.ChillerHeat!.Value.Mid);
        Assert.True(bare.PowerHeat!.Value.Mid > bare.ChillerHeat.Value.Mid);
    }

    [Fact]
    public void A_room_cooler_than_the_limit_never_warms_the_water_to_it() =>
        Assert.Null(Of(TankStory.Eggs().Tank(t => t with { RoomC = 12 })).PowerHeat);

    [Fact]
    public void A_tank_without_fish_has_no_hours() => Assert.Null(HoursIfItStops.Of(TankStory.Eggs().Fish(0).Record, TankStory.At(2, 14)));
}
