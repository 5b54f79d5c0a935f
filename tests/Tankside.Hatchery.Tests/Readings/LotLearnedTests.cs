using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Readings;

public class LotLearnedTests
{
    private static readonly DateOnly Delivered = new(2027, 1, 15);

    private static readonly LotProfile Trout = new("L1", Species.RainbowTrout, Delivered.AddDays(-15), Delivered.AddDays(-15), 9, Delivered, "R1");

    /// <summary>The day after delivery on which the model dates half hatch at 10 °C.</summary>
    private static int ModelDay => On(60, Ten(60)).Hatch!.Mid.DayNumber - Delivered.DayNumber;

    private static List<TankDay> Ten(int days) =>
        [.. Enumerable.Range(0, days).Select(i => new TankDay { Day = Delivered.AddDays(i), MeanC = 10 })];

    /// <summary>Read at 10 °C each day up to the last that said something of the hatch.</summary>
    private static List<TankDay> Said(params (int Day, Share Hatched)[] said)
    {
        var days = Ten(said.Max(s => s.Day) + 1);
        foreach (var (day, hatched) in said)
        {
            days[day].Hatched = hatched;
        }

        return days;
    }

    private static IReadOnlyList<HatchSeen> Seen(params (int Day, Share Hatched)[] said) => HatchesSeen.Of(Guid.NewGuid(), Trout, Said(said), 10);

    /// <summary>Tanks of the lot that had half hatched so many days after the model's day, seen day by day.</summary>
    private static LotLearned Siblings(params int[] daysLater) => new([.. daysLater.SelectMany(later =>
        Seen((ModelDay + later - 2, Share.None), (ModelDay + later - 1, Share.Some), (ModelDay + later, Share.Half), (ModelDay + later + 2, Share.All)))]);

    private static DevelopmentNow On(int day, List<TankDay> days, LotLearned? learned = null, LotProfile? lot = null) =>
        TankDevelopment.On(Delivered.AddDays(day), lot ?? Trout, days, 10, learned);

    private static double Part(StageForecast forecast, ForecastPartName name) => forecast.Parts.Single(p => p.Name == name).SdDays;

    [Fact]
    public void Half_is_dated_between_the_look_that_saw_less_and_the_one_that_saw_it()
    {
        var close = Seen((20, Share.Some), (21, Share.Most)).Single(h => h.Mark == HatchMark.Half);
        var apart = Seen((17, Share.Some), (21, Share.Most)).Single(h => h.Mark == HatchMark.Half);

        Assert.Equal(Delivered.AddDays(21), close.On);
        Assert.True(apart.Look.LogFraction < close.Look.LogFraction);
        Assert.True(apart.Look.OtherSd > close.Look.OtherSd);
    }

    [Fact]
    public void A_first_look_that_finds_most_hatched_dates_nothing_and_one_that_finds_half_does()
    {
        Assert.Empty(Seen((25, Share.Most)));
        Assert.Empty(Seen((25, Share.All)));
        Assert.Empty(Seen((25, Share.Some)));
        Assert.Equal(HatchMark.Half, Assert.Single(Seen((25, Share.Half))).Mark);
    }

    [Fact]
    public void First_and_last_are_turned_into_half_and_known_less_well()
    {
        var seen = Seen((19, Share.None), (20, Share.Some), (21, Share.Half), (22, Share.Most), (23, Share.All)).ToDictionary(h => h.Mark, h => h.Look);

        Assert.Equal(3, seen.Count);
        Assert.All([HatchMark.First, HatchMark.Last], mark =>
        {
            Assert.InRange(seen[mark].LogFraction - seen[HatchMark.Half].LogFraction, -0.04, 0.04);
            Assert.True(seen[mark].OtherSd > seen[HatchMark.Half].OtherSd);
        });
    }

    [Fact]
    public void Half_is_preferred_and_else_what_is_surer()
    {
        Assert.Equal(HatchMark.Half, HatchesSeen.Best(Seen((19, Share.None), (20, Share.Some), (21, Share.Half), (23, Share.All)))!.Mark);
        Assert.Equal(HatchMark.Last, HatchesSeen.Best(Seen((22, Share.Most), (23, Share.All)))!.Mark);
        Assert.Null(HatchesSeen.Best([]));
    }

    [Fact]
    public void Who_says_none_takes_back_what_was_said_before()
    {
        Assert.Empty(Seen((10, Share.Half), (11, Share.None)));
        Assert.Equal(Delivered.AddDays(21), Assert.Single(Seen((10, Share.All), (20, Share.None), (21, Share.Half))).On);
    }

    [Fact]
    public void Siblings_that_hatch_late_move_the_hatch_and_narrow_it()
    {
        var alone = On(12, Ten(12));
        var taught = On(12, Ten(12), Siblings(2, 3, 2, 3));

        Assert.InRange(taught.Hatch!.Mid.DayNumber - alone.Hatch!.Mid.DayNumber, 1, 3);
        Assert.InRange(taught.Hatch.LearnedDays, 1, 3);
        Assert.True(taught.Hatch.SdDays < 0.8 * alone.Hatch.SdDays);
        Assert.True(taught.SwimUp!.Mid > alone.SwimUp!.Mid);
        Assert.True(taught.Hatch.Fraction < alone.Hatch.Fraction);
        Assert.Equal(new LearnedFrom(4, false, 0, false), taught.Learned);
        Assert.Null(alone.Learned);
        Assert.Equal(0, alone.Hatch.LearnedDays);
    }

    [Fact]
    public void Only_the_model_and_the_start_get_surer()
    {
        var (alone, taught) = (On(12, Ten(12)).Hatch!, On(12, Ten(12), Siblings(0, 0, 0)).Hatch!);

        Assert.True(Part(taught, ForecastPartName.Model) < 0.75 * Part(alone, ForecastPartName.Model));
        Assert.True(Part(taught, ForecastPartName.Start) < 0.75 * Part(alone, ForecastPartName.Start));
        Assert.All([ForecastPartName.Gaps, ForecastPartName.Thermometer, ForecastPartName.Future], name =>
            Assert.InRange(Part(taught, name), 0.9 * Part(alone, name), 1.1 * Part(alone, name)));
        Assert.Equal(taught.SdDays, Math.Sqrt(taught.Parts.Sum(p => p.SdDays * p.SdDays)), 9);
    }

    [Fact]
    public void A_tanks_own_hatch_moves_its_swim_up_and_leaves_the_models_hatch_as_it_was()
    {
        var late = On(40, [.. Said((ModelDay + 2, Share.Some), (ModelDay + 3, Share.Half)), .. Ten(40)[(ModelDay + 4)..]]);
        var silent = On(40, Ten(40));

        Assert.Equal(silent.Hatch!.Mid, late.Hatch!.Mid);
        Assert.True(late.SwimUp!.Mid > silent.SwimUp!.Mid);
        Assert.True(late.SwimUp.SdDays < silent.SwimUp.SdDays);
        Assert.Equal(new LearnedFrom(0, true, 0, false), late.Learned);
    }

    [Fact]
    public void A_wrong_tick_among_siblings_is_set_aside_and_named()
    {
        var wild = On(12, Ten(12), new([.. Siblings(0, 1, 0).Siblings, .. Seen((2, Share.None), (3, Share.Half))]));

        Assert.Equal(new LearnedFrom(3, false, 1, false), wild.Learned);
        Assert.Equal(On(12, Ten(12), Siblings(0, 1, 0)).Hatch!.SdDays, wild.Hatch!.SdDays, 9);
    }

    [Fact]
    public void What_was_learned_can_be_looked_at_as_it_stood_on_an_earlier_day()
    {
        var siblings = Siblings(0);
        var on = Delivered.AddDays(ModelDay);

        Assert.Equal([HatchMark.First, HatchMark.Half], siblings.Before(on.AddDays(1)).Siblings.Select(s => s.Mark).Order().Reverse());
        Assert.Equal(HatchMark.First, Assert.Single(siblings.Before(on).Siblings).Mark);
        Assert.Empty(siblings.Before(Delivered).Siblings);
    }

    [Fact]
    public void A_species_without_a_model_learns_nothing()
    {
        var cutthroat = Trout with { Species = Species.CutthroatTrout };

        Assert.Empty(HatchesSeen.Of(Guid.NewGuid(), cutthroat, Said((20, Share.None), (21, Share.Half)), 10));
        Assert.Null(On(12, Ten(12), Siblings(0), cutthroat).Learned);
    }

    [Fact]
    public void What_the_siblings_taught_lies_in_the_way_as_it_lies_in_the_date()
    {
        var hatch = On(12, Ten(12), Siblings(3, 3, 3, 3)).Hatch!;

        var way = hatch.Way!.Until(hatch.High80);

        Assert.True(hatch.LearnedDays > 1);
        Assert.Equal(hatch.Fraction, way[12].At.Fraction, 9);
        Assert.Equal(hatch.Mid, way.Last(d => d.At.Fraction <= 1).Day);
    }
}
