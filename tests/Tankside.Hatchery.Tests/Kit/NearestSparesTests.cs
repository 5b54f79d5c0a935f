using Tankside.Hatchery.Kit;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Kit;

public class NearestSparesTests
{
    private static readonly Guid Tank = Guid.NewGuid(), Other = Guid.NewGuid();

    private static readonly Driving Driving = new(1.3, 50);

    private static SpareNeed Need(double litres = 200, params KitKind[] kinds) =>
        new(Tank, kinds.Length == 0 ? [KitKind.Chiller] : kinds, litres, new GeoPoint(44, -113));

    private static KitAt Item(string serial, double? latitude = 44.1, KitKind kind = KitKind.Chiller) =>
        new(new KitItem { Id = Guid.NewGuid(), Serial = serial, Make = "any", Kind = kind }, GeoPoint.Of(latitude, -113));

    private static string[] Offered(SpareNeed need, params KitAt[] kit) => [.. NearestSpares.For(need, kit, Driving).Select(o => o.Item.Serial)];

    private static KitAt With(KitAt item, Action<KitItem> change)
    {
        change(item.Item);
        return item;
    }

    [Fact]
    public void The_nearest_comes_first_and_one_whose_place_is_not_known_last() =>
        Assert.Equal(["near", "far", "somewhere"], Offered(Need(), Item("far", 45), Item("somewhere", null), Item("near", 44.05)));

    [Fact]
    public void The_drive_is_the_road_at_the_programmes_speed()
    {
        var offer = Assert.Single(NearestSpares.For(Need(), [Item("a", 44.1)], Driving));

        // A tenth of a degree of latitude is 11.12 km; 14.45 km of road at 50 km/h are 17.3 minutes.
        Assert.Equal(17.35, offer.Minutes!.Value, 0.05);
    }

    [Fact]
    public void A_broken_one_one_in_use_and_one_promised_elsewhere_are_never_offered() => Assert.Empty(Offered(
        Need(),
        With(Item("broken"), k => k.Condition = KitCondition.Faulty),
        With(Item("away"), k => k.Condition = KitCondition.InRepair),
        With(Item("in use"), k => k.InTankId = Other),
        With(Item("on the road"), k => k.WithPersonId = Other),
        With(Item("promised"), k => k.ReservedForTankId = Other)));

    [Fact]
    public void One_too_small_for_the_tank_is_not_offered() =>
        Assert.Equal(["big"], Offered(Need(200), With(Item("small"), k => k.MostLitres = 115), With(Item("big"), k => k.MostLitres = 200)));

    [Fact]
    public void The_one_promised_to_this_tank_leads() =>
        Assert.Equal(["ours", "near"], Offered(Need(), Item("near", 44.01), With(Item("ours", 45), k => k.ReservedForTankId = Tank)));

    [Fact]
    public void The_kind_that_helps_most_goes_before_the_shorter_way() => Assert.Equal(
        ["pump", "air"],
        Offered(Need(200, KitKind.Pump, KitKind.BatteryAir), Item("air", 44.01, KitKind.BatteryAir), Item("pump", 45, KitKind.Pump), Item("cold", 44, KitKind.Chiller)));
}
