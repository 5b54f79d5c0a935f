using Tankside.Hatchery.Flags;

namespace Tankside.Hatchery.Tests.Flags;

public class SettingOrderTests
{
    [Fact]
    public void Every_default_may_be_what_it_is() =>
        Assert.Empty(ProgrammeNumbers.All.Where(s => SettingOrder.Check(s, s.Default, LimitSet.Defaults) is not null).Select(s => s.Key));

    [Theory]
    [InlineData("loss.heat.share", 1.01)]
    [InlineData("silent.days", 1.5)]
    [InlineData("warming.horizon", 0)]
    [InlineData("warm.act.fry", double.NaN)]
    public void What_makes_no_sense_is_out_of_range(string key, double value) =>
        Assert.IsType<SettingRefusal.OutOfRange>(SettingOrder.Check(ProgrammeNumbers.Find(key)!, value, LimitSet.Defaults));

    [Fact]
    public void Looking_comes_before_acting_by_the_programmes_own_numbers()
    {
        var own = new LimitSet(new Dictionary<string, double> { [Limits.WarmActFry.Key] = 17 });

        Assert.Equal(new SettingRefusal.OverOther(Limits.WarmActFry, 17), SettingOrder.Check(Limits.WarmLookFry, 17.5, own));
        Assert.Null(SettingOrder.Check(Limits.WarmLookFry, 17.5, LimitSet.Defaults));
        Assert.IsType<SettingRefusal.UnderOther>(SettingOrder.Check(Limits.OxygenLookEgg, 6, LimitSet.Defaults));
    }

    [Fact]
    public void Parts_of_one_whole_are_together_at_most_all_of_it() =>
        Assert.IsType<SettingRefusal.MoreThanAll>(SettingOrder.Check(Limits.Leaving.PumpPart, 0.5, LimitSet.Defaults));
}
