using Tankside.Hatchery.Readings;
using Tankside.Storage.Readings;

namespace Tankside.Storage.Tests;

/// <summary>Days as bytes are the same days, to the last bit.</summary>
public class DayPackTests
{
    private static readonly Guid Tank = Guid.NewGuid();

    [Fact]
    public void Any_days_come_back()
    {
        var random = new Random(20270203);
        for (var i = 0; i < 500; i++)
        {
            List<TankDay> days = [.. Enumerable.Range(0, random.Next(150)).Select(_ => Any(random))];

            Assert.Equal(days.Select(RoundTripTests.Text), Again(days).Select(RoundTripTests.Text));
        }
    }

    [Fact]
    public void The_first_day_and_the_last_and_numbers_that_are_no_round_ones_come_back()
    {
        TankDay[] days =
        [
            new() { TankId = Tank, Day = DateOnly.MinValue, FirstAt = Utc(DateTime.MinValue), LastAt = Utc(DateTime.MinValue), Readings = int.MaxValue, SquaredGapHours = -0.0, MeanC = double.Epsilon, MinC = double.MinValue, MaxC = -0.0 },
            new() { TankId = Tank, Day = DateOnly.MaxValue, FirstAt = Utc(DateTime.MaxValue), LastAt = Utc(DateTime.MaxValue), WaterReadings = int.MaxValue, SquaredGapHours = double.MaxValue, MeanC = 1.0 / 3, MinC = 1e9, MaxC = 0.1 + 0.2 },
            new() { TankId = Tank, Day = new DateOnly(2027, 2, 3), FirstAt = SampleRows.At.AddTicks(1), LastAt = SampleRows.At.AddTicks(3), SquaredGapHours = 575.999_999_9 },
        ];

        var again = Again(days);

        Assert.Equal(days.Select(RoundTripTests.Text), again.Select(RoundTripTests.Text));
        Assert.True(double.IsNegative(again[0].SquaredGapHours) && double.IsNegative(again[0].MaxC!.Value));
        Assert.All(again, d => Assert.Equal((DateTimeKind.Utc, DateTimeKind.Utc), (d.FirstAt.Kind, d.LastAt.Kind)));
    }

    [Fact]
    public void A_season_of_a_logger_takes_some_twenty_bytes_a_day()
    {
        var from = new DateTime(2027, 1, 1, 7, 0, 0, DateTimeKind.Utc);
        var facts = Enumerable.Range(0, 24 * 120).Select(i => new ReadingFact(from.AddHours(i), new Observation { WaterC = Math.Round(10.3 + (i * 7 % 5 / 10.0), 1) }, ByClass: false));
        var days = TankDays.Fold(Tank, facts, Tankside.Hatchery.People.ProgrammeClock.Of("America/Denver"));

        Assert.InRange(DayPack.Write(days).Length / days.Count, 10, 20);
    }

    [Fact]
    public void What_is_no_pack_or_breaks_off_is_told_and_nothing_else_happens()
    {
        var random = new Random(7);
        var packed = DayPack.Write([.. Enumerable.Range(0, 20).Select(_ => Any(random))]);

        Assert.All(Enumerable.Range(0, packed.Length), length => Assert.Throws<InvalidDataException>(() => DayPack.Read(packed.AsSpan(0, length), Tank, [])));
        Assert.Throws<InvalidDataException>(() => DayPack.Read([2, 0], Tank, []));
        for (var i = 0; i < 5000; i++)
        {
            var broken = packed.ToArray();
            broken[random.Next(broken.Length)] = (byte)random.Next(256);
            try
            {
                DayPack.Read(broken, Tank, []);
            }
            catch (InvalidDataException)
            {
                // As it should.
            }
        }
    }

    private static List<TankDay> Again(IReadOnlyList<TankDay> days)
    {
        var read = new List<TankDay>();
        DayPack.Read(DayPack.Write(days), Tank, read);
        return read;
    }

    private static TankDay Any(Random random)
    {
        var first = Utc(new DateTime(2026, 9, 1)).AddTicks(random.Next(2) == 0 ? random.NextInt64(300 * TimeSpan.TicksPerDay) : random.Next(300 * 86_400) * TimeSpan.TicksPerSecond);
        return new TankDay
        {
            TankId = Tank,
            Day = new DateOnly(2026, 9, 1).AddDays(random.Next(300)),
            FirstAt = first,
            LastAt = first.AddSeconds(random.Next(86_400)),
            Readings = random.Next(2000),
            WaterReadings = random.Next(2000),
            SquaredGapHours = random.Next(2) == 0 ? Math.Round(random.NextDouble() * 576, 6) : random.NextDouble() * 576,
            MeanC = Number(random, 4),
            MinC = Number(random, 2),
            MaxC = Number(random, 2),
            DeadEggs = Count(random),
            DeadAlevins = Count(random),
            DeadFry = Count(random),
            Hatched = random.Next(4) == 0 ? (Share)random.Next(Enum.GetValues<Share>().Length) : null,
            Swimming = random.Next(4) == 0 ? (Share)random.Next(Enum.GetValues<Share>().Length) : null,
        };
    }

    private static double? Number(Random random, int digits) => random.Next(5) switch
    {
        0 => null,
        1 => (random.NextDouble() * 30) - 5,
        _ => Math.Round((random.NextDouble() * 30) - 5, digits),
    };

    private static int? Count(Random random) => random.Next(4) == 0 ? random.Next(300) : null;

    private static DateTime Utc(DateTime at) => DateTime.SpecifyKind(at, DateTimeKind.Utc);
}
