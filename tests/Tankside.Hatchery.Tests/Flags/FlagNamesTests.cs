using Tankside.Hatchery.Flags;

namespace Tankside.Hatchery.Tests.Flags;

public class FlagNamesTests
{
    [Fact]
    public void Every_kind_has_a_name_of_its_own_that_leads_back_to_it()
    {
        var kinds = Enum.GetValues<FlagKind>();

        Assert.All(kinds, kind =>
        {
            Assert.Matches("^[a-z]+(-[a-z]+)*$", FlagNames.NameOf(kind));
            Assert.True(FlagNames.TryParse(FlagNames.NameOf(kind), out var back));
            Assert.Equal(kind, back);
        });
        Assert.Distinct(kinds.Select(FlagNames.NameOf));
    }

    [Theory]
    [InlineData(FlagKind.Warm, "warm")]
    [InlineData(FlagKind.WarmingFast, "warming-fast")]
    [InlineData(FlagKind.PhSag, "ph-sag")]
    [InlineData(FlagKind.FeedingNearBreak, "feeding-near-break")]
    public void A_name_is_the_words_with_hyphens(FlagKind kind, string name) => Assert.Equal(name, FlagNames.NameOf(kind));

    [Fact]
    public void Urgencies_are_named_alike() =>
        Assert.Equal(["this-week", "today", "act-now"], Enum.GetValues<Urgency>().Select(FlagNames.NameOf));

    [Theory]
    [InlineData("Warm")]
    [InlineData("warmingfast")]
    [InlineData("")]
    [InlineData("0")]
    public void Another_spelling_is_no_name(string name) => Assert.False(FlagNames.TryParse(name, out _));

    [Fact]
    public void Every_kind_is_a_sign_of_some_danger() => Assert.All(Enum.GetValues<FlagKind>(), kind => Assert.True(Enum.IsDefined(Dangers.Of(kind))));
}
