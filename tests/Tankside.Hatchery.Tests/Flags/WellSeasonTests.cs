using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>
/// Whole seasons in which nothing is wrong, told day by day with the noise of real classes: a look every school day in whole °F, a death now
/// and then, pH and ammonia on Wednesdays, nitrite and oxygen once in a while. They are judged after every look.
/// </summary>
public class WellSeasonTests
{
    private const int Seasons = 60, LastDay = 110;

    private static readonly FlagKind[] OfTestsAndSigns =
    [
        FlagKind.LowOxygen, FlagKind.Nitrite, FlagKind.Chlorine, FlagKind.Metals, FlagKind.PhSag, FlagKind.Fungus, FlagKind.Contradictory,
        FlagKind.StuckThermometer,
    ];

    [Fact]
    public void A_well_tank_raises_nothing_of_tests_and_signs_but_for_a_thermometer_or_a_pH_now_and_then()
    {
        var random = new Random(20270203);
        var raised = Enumerable.Range(0, Seasons).SelectMany(_ => Raised(random)).CountBy(kind => kind).ToDictionary();

        Assert.DoesNotContain(raised.Keys, k => k is not (FlagKind.PhSag or FlagKind.StuckThermometer or FlagKind.Metals));
        Assert.All(raised, kind => Assert.True(kind.Value <= Seasons * 5 / 100, string.Join(", ", raised)));
    }

    /// <summary>The kinds that one season raises at least once.</summary>
    private static IEnumerable<FlagKind> Raised(Random random)
    {
        var season = Season(random);
        var days = season.Days.Select(d => d.Day).ToList();
        return [.. days.SelectMany((day, i) => Judged(season, i + 1)).Distinct().Where(OfTestsAndSigns.Contains)];
    }

    private static IEnumerable<FlagKind> Judged(TankRecord season, int days)
    {
        var now = season.Days[days - 1].LastAt.AddMinutes(20);
        var record = season with
        {
            Days = [.. season.Days.Take(days)],
            Recent = [.. season.Recent.Where(r => r.At <= now && r.At >= now.AddDays(-TankRecord.RecentDays))],
        };
        return Assessment.Assess(record, now).Select(f => f.Kind);
    }

    private static TankRecord Season(Random random)
    {
        var tank = TankStory.Eggs();
        var readings = new List<ReadingFact>();
        var (mean, ph) = (10.5 + Normal(random, 0.15), 7.2 + Normal(random, 0.2));
        for (var day = -5; day <= LastDay; day++)
        {
            if (tank.Calendar.IsSchoolDay(TankStory.Wednesday.AddDays(day)) && random.NextDouble() > 0.06)
            {
                readings.Add(new ReadingFact(TankStory.At(day, 8, 20 + random.Next(100) % 40), Look(random, day, mean, ph), ByClass: true));
            }
        }

        var record = tank.Record;
        return record with { Recent = readings, Days = TankDays.Fold(record.Tank.Id, readings, record.Calendar.Clock) };
    }

    /// <summary>Hatched from the ninth day on, swimming from the thirty-fifth, as rainbow trout at 10.5 °C are.</summary>
    private static Observation Look(Random random, int day, double mean, double ph)
    {
        var dead = random.NextDouble() < 0.2 ? 1 : 0;
        var wednesday = day % 7 == 0;
        return new Observation
        {
            WaterC = Math.Round(Celsius.FromFahrenheit(Math.Round(((mean + Normal(random, 0.35)) * 1.8) + 32)).Degrees, 2),
            Moving = true,
            Bubbles = true,
            ChillerRunning = random.NextDouble() < 0.7 ? true : null,
            DeadEggs = day < 12 ? dead : null,
            DeadAlevins = day is >= 12 and < 38 ? dead : null,
            DeadFry = day >= 38 ? dead : null,
            Hatched = day switch { < 5 => null, < 9 => Share.None, < 11 => Share.Some, < 13 => Share.Most, < 20 => Share.All, _ => null },
            Swimming = day switch { < 28 => null, < 35 => Share.None, < 38 => Share.Some, < 50 => Share.All, _ => null },
            Fed = day >= 38 ? true : null,
            Fungus = random.NextDouble() < 0.3 ? false : null,
            Gasping = random.NextDouble() < 0.3 ? false : null,
            Ph = wednesday ? Math.Round(ph + Normal(random, 0.1), 1) : null,
            AmmoniaTotalMgL = wednesday ? (random.NextDouble() < 0.2 ? 0.25 : 0) : null,
            NitriteMgL = wednesday && day % 14 == 0 ? 0 : null,
            OxygenMgL = wednesday && day % 21 == 0 ? Math.Round(10.3 + Normal(random, 0.4), 1) : null,
            WaterChangedPercent = wednesday && day > 38 ? 15 : null,
        };
    }

    private static double Normal(Random random, double sd) =>
        sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
