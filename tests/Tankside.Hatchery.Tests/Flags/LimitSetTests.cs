using Tankside.Hatchery.Flags;

namespace Tankside.Hatchery.Tests.Flags;

public class LimitSetTests
{
    [Fact]
    public void A_programmes_own_value_wins_over_the_default_also_when_it_is_zero()
    {
        var own = new LimitSet(new Dictionary<string, double> { ["warm.look.egg"] = 11.5, ["die-off.fewest"] = 0 });

        Assert.Equal((11.5, 0, 15.0), (own[Limits.WarmLookEgg], own[Limits.DieOffFewest], own[Limits.WarmActEgg]));
        Assert.Equal(12.2, LimitSet.Defaults[Limits.WarmLookEgg]);
    }

    [Fact]
    public void Every_setting_has_a_unit_a_source_and_a_credible_default() => Assert.All(Limits.All, s =>
    {
        Assert.NotEmpty(s.Unit);
        Assert.NotEmpty(s.Source);
        Assert.True(double.IsFinite(s.Default) && s.Default > 0, s.Key);
    });

    [Fact]
    public void Every_share_and_chance_lies_between_none_and_all() =>
        Assert.All(
            Limits.All.Where(s => s.Unit.Split(' ')[0] is "share" or "chance" or "probability"),
            s => Assert.InRange(s.Default, 0.001, 1));

    [Fact]
    public void A_look_limit_comes_before_its_act_limit()
    {
        Assert.True(Limits.WarmLookEgg.Default < Limits.WarmActEgg.Default && Limits.WarmLookFry.Default < Limits.WarmActFry.Default);
        Assert.True(Limits.ColdLookEgg.Default > Limits.ColdActEgg.Default && Limits.ColdLookFry.Default > Limits.ColdActFry.Default);
        Assert.True(Limits.AmmoniaLook.Default < Limits.AmmoniaAct.Default);
    }
}
