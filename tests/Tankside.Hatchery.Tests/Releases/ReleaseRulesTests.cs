using Tankside.Hatchery.Releases;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Releases;

public class ReleaseRulesTests
{
    private static readonly DateOnly Day = new(2027, 4, 20);

    private static readonly Permit Trout = new()
    {
        Number = "P-1",
        Species = Species.RainbowTrout,
        Water = "Reed Creek",
        Fish = 200,
        From = new DateOnly(2027, 4, 1),
        To = new DateOnly(2027, 6, 30),
    };

    private static readonly ReleaseSite Footbridge = new() { Name = "Footbridge", Water = "Reed Creek" };

    private static IReadOnlyList<ReleaseRefusal> Check(
        int fish = 50, int already = 0, Species? species = Species.RainbowTrout, string water = "Reed Creek", DateOnly? day = null,
        DateOnly? today = null, bool closed = false) =>
        ReleaseRules.Check(Trout, new ReleaseSite { Name = Footbridge.Name, Water = water }, species, fish, already, day ?? Day, today ?? day ?? Day, closed);

    [Fact]
    public void A_release_inside_its_permit_stands() => Assert.Empty(Check());

    [Fact]
    public void The_last_fish_and_the_first_and_last_day_of_the_permit_are_inside()
    {
        Assert.Empty(Check(fish: 50, already: 150));
        Assert.Empty(Check(day: Trout.From));
        Assert.Empty(Check(day: Trout.To));
    }

    [Fact]
    public void One_fish_more_than_the_permit_is_refused() =>
        Assert.Equal([ReleaseRefusal.OverPermit], Check(fish: 51, already: 150));

    [Fact]
    public void A_number_too_large_to_add_is_refused_too() =>
        Assert.Equal([ReleaseRefusal.OverPermit], Check(fish: int.MaxValue, already: int.MaxValue));

    [Fact]
    public void Another_species_is_refused() => Assert.Equal([ReleaseRefusal.WrongSpecies], Check(species: Species.ChinookSalmon));

    [Fact]
    public void Another_water_is_refused_and_capitals_do_not_make_another_water()
    {
        Assert.Equal([ReleaseRefusal.WrongWater], Check(water: "Mill Pond"));
        Assert.Empty(Check(water: "REED creek"));
    }

    [Theory]
    [InlineData("2027-03-31")]
    [InlineData("2027-07-01")]
    public void A_day_outside_the_permit_is_refused(string day) =>
        Assert.Equal([ReleaseRefusal.OutOfSeason], Check(day: DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture)));

    [Fact]
    public void A_day_to_come_is_refused() => Assert.Equal([ReleaseRefusal.InTheFuture], Check(today: Day.AddDays(-1)));

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    public void Nothing_counted_is_no_release(int fish) => Assert.Equal([ReleaseRefusal.NothingCounted], Check(fish: fish));

    [Fact]
    public void A_tank_that_never_received_anything_releases_nothing() =>
        Assert.Equal([ReleaseRefusal.NoEggsReceived], Check(species: null));

    [Fact]
    public void A_closed_tank_releases_nothing() => Assert.Equal([ReleaseRefusal.TankClosed], Check(closed: true));

    [Fact]
    public void All_that_stands_against_it_is_told_at_once() =>
        Assert.Equal(
            [ReleaseRefusal.WrongSpecies, ReleaseRefusal.WrongWater, ReleaseRefusal.OverPermit],
            Check(fish: 500, species: Species.CohoSalmon, water: "Mill Pond"));

    [Theory]
    [InlineData(10.0, 12.7, false)]
    [InlineData(10.0, 12.9, true)]
    [InlineData(12.9, 10.0, true)]
    [InlineData(null, 10.0, false)]
    public void Waters_more_than_five_fahrenheit_apart_ask_for_tempering(double? tank, double? stream, bool asks) =>
        Assert.Equal(asks, ReleaseRules.AsksForTempering(tank, stream, TemperingSettings.Apart.Default));
}
