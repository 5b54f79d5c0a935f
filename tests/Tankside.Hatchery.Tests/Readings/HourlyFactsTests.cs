using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>What is looked back on of readings that come every few minutes.</summary>
public class HourlyFactsTests
{
    private static readonly DateTime Nine = new(2027, 1, 20, 9, 0, 0, DateTimeKind.Utc);

    private static ReadingFact Read(double minute, double? celsius, bool? chiller = null, double? room = 20, int lateMinutes = 0, bool byClass = false) => new(
        Nine.AddMinutes(minute), new Observation { WaterC = celsius, RoomC = room, ChillerRunning = chiller }, byClass, Nine.AddMinutes(minute + lateMinutes));

    private static double[] Minutes(params ReadingFact[] facts) => [.. HourlyFacts.Of(facts).Select(f => (f.At - Nine).TotalMinutes)];

    [Fact]
    public void One_reading_an_hour_is_kept_as_it_is() =>
        Assert.Equal([0d, 60, 120, 185], Minutes(Read(0, 9), Read(60, 9.1), Read(120, 9), Read(185, 9.2)));

    [Fact]
    public void Of_an_hours_equal_readings_the_last_is_kept() =>
        Assert.Equal([50d, 110], Minutes([.. Enumerable.Range(0, 12).Select(i => Read(10 * i, 9 + (i % 2 * 0.2)))]));

    [Fact]
    public void What_lies_half_a_degree_off_the_last_is_news_of_its_own()
    {
        Assert.Equal([10d, 20, 50], Minutes(Read(0, 9.4), Read(10, 8.4), Read(20, 9.5), Read(30, 9.2), Read(50, 9)));
        Assert.Equal([50d], Minutes(Read(10, 8.51), Read(20, 9.49), Read(50, 9)));
    }

    [Fact]
    public void Of_the_warmest_the_latest_is_kept() =>
        Assert.Equal([20d, 50], Minutes(Read(0, 10), Read(20, 10), Read(30, 9), Read(50, 9)));

    [Fact]
    public void Whatever_a_person_saw_is_kept()
    {
        var seen = new ReadingFact(Nine.AddMinutes(20), new Observation { WaterC = 9, Moving = true }, ByClass: true, Nine.AddMinutes(20));
        var noted = new ReadingFact(Nine.AddMinutes(25), new Observation { WaterC = 9, Note = "cloudy" }, ByClass: false, Nine.AddMinutes(25));

        Assert.Equal([20d, 25, 50], Minutes(Read(0, 9), seen, noted, Read(50, 9)));
    }

    [Fact]
    public void The_last_word_on_each_thing_stays_whatever_came_after_it()
    {
        Assert.Equal([10d, 20, 50], Minutes(Read(0, 9, chiller: false), Read(10, 9, chiller: false), Read(20, 9, chiller: true), Read(50, 9)));
        Assert.Equal([30d, 50], Minutes(Read(0, null), Read(30, null), Read(50, 9)));
        Assert.Equal([20d, 50], Minutes(Read(20, 9, room: null), Read(40, 9), Read(50, 9)));
    }

    [Fact]
    public void A_late_reading_never_stands_for_one_that_came_in_time_nor_a_class_for_a_logger()
    {
        Assert.Equal([10d, 50], Minutes(Read(10, 9.2), Read(50, 9, lateMinutes: 90)));
        Assert.Equal([10d, 50], Minutes(Read(10, 9.2), Read(50, 9, byClass: true)));
        Assert.Equal([50d], Minutes(Read(10, 9.2), Read(50, 9, lateMinutes: 60)));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Thinned_day_by_day_or_as_a_whole_or_twice_it_is_the_same(int seed)
    {
        var facts = Any(new Random(seed), 400);
        var whole = HourlyFacts.Of(facts);

        Assert.True(whole.Count < facts.Count, "Nothing was thinned: this shows nothing.");
        Assert.Equal(whole, HourlyFacts.Of(whole));
        Assert.Equal(whole, facts.GroupBy(f => f.At.Date).SelectMany(d => HourlyFacts.Of([.. d])));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void The_newest_word_on_anything_is_the_same_before_and_after(int seed)
    {
        var facts = Any(new Random(seed), 300);
        var kept = HourlyFacts.Of(facts);

        Assert.Equal(facts[^1], kept[^1]);
        foreach (var what in (Func<Observation, object?>[])[s => s.WaterC, s => s.RoomC, s => s.ChillerRunning, s => s.Moving, s => s.DeadEggs])
        {
            Assert.Equal(facts.Last(f => what(f.Seen) is not null), kept.Last(f => what(f.Seen) is not null));
        }

        Assert.Equal(facts.Max(f => f.Seen.WaterC)!.Value, kept.Max(f => f.Seen.WaterC)!.Value, 0.5);
    }

    /// <summary>A logger that reads each ten minutes, or any tenth minute by a whim, and people in between.</summary>
    private static List<ReadingFact> Any(Random random, int count)
    {
        var facts = new List<ReadingFact>();
        var at = Nine;
        for (var i = 0; i < count; i++)
        {
            at = at.AddMinutes(random.Next(1, 20));
            var seen = new Observation
            {
                WaterC = random.Next(6) > 0 ? Math.Round(9 + (2 * random.NextDouble()), 2) : null,
                RoomC = random.Next(2) > 0 ? 20.5 : null,
                ChillerRunning = random.Next(3) > 0 ? random.Next(2) == 0 : null,
                Moving = random.Next(15) == 0 ? true : null,
                DeadEggs = random.Next(20) == 0 ? random.Next(3) : null,
            };
            facts.Add(new ReadingFact(at, seen with { RoomC = seen.IsEmpty ? 20 : seen.RoomC }, random.Next(5) == 0, at.AddMinutes(random.Next(8) == 0 ? 600 : 0)));
        }

        return facts;
    }
}
