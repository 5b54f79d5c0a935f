using System.Reflection;
using Tankside.Hatchery.Readings;
using Tankside.Storage.Readings;

namespace Tankside.Storage.Tests;

/// <summary>Facts as bytes are the same facts.</summary>
public class FactPackTests
{
    private static readonly DateTime At = new(2027, 2, 3, 15, 15, 0, DateTimeKind.Utc);

    private static List<ReadingFact> Again(params ReadingFact[] facts)
    {
        var read = new List<ReadingFact>();
        FactPack.Read(FactPack.Write(facts), read, new());
        return read;
    }

    public static TheoryData<string> Properties() => [.. typeof(Observation).GetProperties().Where(p => p.CanWrite).Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Properties))]
    public void Everything_that_can_be_seen_comes_back(string name)
    {
        var property = typeof(Observation).GetProperty(name, BindingFlags.Public | BindingFlags.Instance)!;
        foreach (var value in ValuesOf(Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType))
        {
            var seen = new Observation();
            property.SetValue(seen, value);
            var fact = new ReadingFact(At, seen, ByClass: false);

            Assert.Equal([fact], Again(fact));
        }
    }

    [Fact]
    public void A_pack_says_how_many_it_holds()
    {
        foreach (var count in new[] { 0, 1, 127, 128, 300 })
        {
            Assert.Equal(count, FactPack.CountOf(FactPack.Write([.. Enumerable.Range(0, count).Select(i => new ReadingFact(At.AddHours(i), new Observation(), ByClass: false))])));
        }

        Assert.Equal(0, FactPack.CountOf([]));
        Assert.Equal(0, FactPack.CountOf([2, 9, 9]));
        Assert.InRange(FactPack.CountOf([1, 0xFF, 0xFF, 0xFF, 0x7F]), 0, 5);
    }

    [Fact]
    public void All_at_once_and_nothing_at_all_come_back()
    {
        var full = new Observation();
        foreach (var property in typeof(Observation).GetProperties().Where(p => p.CanWrite))
        {
            property.SetValue(full, ValuesOf(Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType)[^1]);
        }

        ReadingFact[] facts = [new(At, full, true, At.AddSeconds(3)), new(At, new Observation(), false, At.AddDays(-2)), new(At.AddTicks(1), full, false)];
        Assert.Equal(facts, Again(facts));
        Assert.Empty(Again());
    }

    [Fact]
    public void What_is_alike_is_made_once_and_what_differs_in_one_bit_is_not_mixed_up()
    {
        Observation[] seen = [new() { WaterC = 0.0 }, new() { WaterC = -0.0 }, new() { RoomC = 0 }, new() { WaterC = 10.25, Moving = true }, new() { WaterC = 10.25, Moving = false }, new() { WaterC = 10.25, Moving = true, DeadEggs = 1 }];
        ReadingFact[] facts = [.. Enumerable.Range(0, 500).Select(i => new ReadingFact(At.AddHours(i), seen[i * i % seen.Length], false))];
        var read = Again(facts);

        Assert.Equal(facts, read);
        Assert.All(facts.Zip(read), f => Assert.Equal(BitConverter.DoubleToInt64Bits(f.First.Seen.WaterC ?? 1), BitConverter.DoubleToInt64Bits(f.Second.Seen.WaterC ?? 1)));
        Assert.Single(read.Select(f => f.Seen).Where(s => s is { Moving: true, DeadEggs: null }).Distinct(ReferenceEqualityComparer.Instance));
    }

    [Fact]
    public void Many_different_observations_come_back()
    {
        ReadingFact[] facts = [.. Enumerable.Range(0, 3_000).Select(i => new ReadingFact(At.AddHours(i), new Observation { WaterC = i * 7 % 400 / 10.0, RoomC = i % 3 == 0 ? null : i % 50, Bubbles = i % 5 < 2 }, false))];
        Assert.Equal(facts, Again(facts));
    }

    [Fact]
    public void Times_come_back_to_the_tick_and_as_utc()
    {
        ReadingFact[] facts =
        [
            new(DateTime.SpecifyKind(DateTime.MinValue, DateTimeKind.Utc), new Observation { WaterC = 9 }, false),
            new(At.AddTicks(7), new Observation { WaterC = 9 }, false, At.AddTicks(11)),
            new(At.AddMilliseconds(-3), new Observation { WaterC = 9 }, false, At.AddYears(3)),
            new(DateTime.SpecifyKind(DateTime.MaxValue, DateTimeKind.Utc), new Observation { WaterC = 9 }, true, At),
        ];

        var read = Again(facts);

        Assert.Equal(facts, read);
        Assert.All(read, f => Assert.Equal(DateTimeKind.Utc, f.At.Kind));
    }

    [Fact]
    public void A_day_of_a_logger_takes_little()
    {
        var day = Enumerable.Range(0, 24).Select(hour => new ReadingFact(
            At.AddHours(hour), new Observation { WaterC = 9 + (hour % 7 / 10.0), RoomC = 20.5, ChillerRunning = hour % 3 == 0 }, false, At.AddHours(hour).AddMilliseconds(412)));

        Assert.InRange(FactPack.Write([.. day]).Length, 24 * 8, 24 * 15);
    }

    [Fact]
    public void A_pack_that_is_broken_or_of_another_version_is_refused()
    {
        var packed = FactPack.Write([new ReadingFact(At, new Observation { WaterC = 9.123, Note = "wet" }, true, At)]);
        for (var length = 0; length < packed.Length; length++)
        {
            Assert.Throws<InvalidDataException>(() => FactPack.Read(packed.AsSpan(0, length), [], new()));
        }

        Assert.Throws<InvalidDataException>(() => FactPack.Read([2, .. packed[1..]], [], new()));
        Assert.Throws<InvalidDataException>(() => FactPack.Read([1, 1, 2, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF], [], new()));
    }

    private static object[] ValuesOf(Type type) =>
        type == typeof(double) ? [0.0, -0.0, 9.4, -3.25, 1e300, double.Epsilon, 21.111111111111111, 10.005, 7.01]
        : type == typeof(int) ? [0, 1, 214, int.MaxValue]
        : type == typeof(bool) ? [false, true]
        : type == typeof(Share) ? [.. Enum.GetValues<Share>().Cast<object>()]
        : type == typeof(string) ? ["", "agua turbia \U0001F41F", new string('x', 2000)]
        : throw new InvalidOperationException($"No values of {type.Name}: add some, and a place in the pack.");
}
