using CsCheck;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>What holds for any tank, however its days went.</summary>
public class AnyHistoryTests
{
    /// <summary>Days of a history before the moment of judging, at most.</summary>
    private const int Days = 10;

    private static readonly Gen<bool?> Tick = Gen.Int[0, 3].Select(n => n switch { 0 => true, 1 => false, _ => (bool?)null });

    private static readonly Gen<int?> Dead = Gen.Int[-3, 25].Select(n => n < 0 ? (int?)null : n);

    private static readonly Gen<double?> Water = Gen.Int[-60, 240].Select(n => n < 0 ? (double?)null : n / 10.0);

    private static readonly Gen<Observation> Seen =
        from water in Water
        from moving in Tick
        from bubbles in Tick
        from chiller in Tick
        from ice in Tick
        from dead in Dead
        from ammonia in Gen.Int[-4, 30]
        from ph in Gen.Int[-40, 40]
        select new Observation
        {
            WaterC = water,
            Moving = moving,
            Bubbles = bubbles,
            ChillerRunning = chiller,
            IceOnCoil = ice,
            DeadEggs = dead,
            AmmoniaTotalMgL = ammonia < 0 ? null : ammonia / 10.0,
            Ph = ph < 0 ? null : 5 + (ph / 10.0),
        };

    /// <summary>Minutes before noon of the Wednesday, and what was seen then; no two at the same minute.</summary>
    private static readonly Gen<(int Ago, Observation Seen)[]> History =
        Gen.Select(Gen.Int[0, Days * 24 * 60], Seen).Array[1, 14].Select(readings => readings.DistinctBy(r => r.Item1).ToArray());

    private static TankStory Told(LifeStage stage, int fish, IEnumerable<(int Ago, Observation Seen)> history) =>
        history.Aggregate(TankStory.Of(stage).Fish(fish), (tank, r) => tank.Seen(0, 12 - (r.Ago / 60.0), r.Seen));

    private static readonly Gen<LifeStage> Stage = Gen.Enum<LifeStage>();

    [Fact]
    public void A_reading_that_arrives_after_a_newer_one_takes_no_trouble_of_the_water_away() =>
        Gen.Select(Stage, History, Seen, Gen.Int[1, 4 * 24 * 60]).Sample(
            (stage, history, late, earlier) =>
            {
                var newest = history.Min(r => r.Ago);
                var ago = newest + earlier;
                if (history.Any(r => r.Ago == ago))
                {
                    return true;
                }

                var before = Told(stage, 150, history).Situation();
                var after = Told(stage, 150, history).Seen(0, 12 - (ago / 60.0), late, receivedAt: before.Now.AddSeconds(1));

                // A late temperature may move the eggs on a stage, and another stage bears other water.
                return after.Situation().Stage != before.Stage || OfWater(before).IsSubsetOf(OfWater(after.Situation()));
            },
            iter: 1000);

    [Fact]
    public void The_order_in_which_readings_arrive_changes_nothing() =>
        Gen.Select(Stage, History, Gen.Int).Sample(
            (stage, history, seed) =>
            {
                var shuffled = history.ToArray();
                new Random(seed).Shuffle(shuffled);
                return Told(stage, 150, history).Findings().SequenceEqual(Told(stage, 150, shuffled).Findings());
            },
            iter: 300);

    [Fact]
    public void No_more_fish_are_expected_lost_than_there_are() =>
        Gen.Select(Stage, Gen.Int[1, 400], History, Gen.Int[0, 23]).Sample(
            (stage, fish, history, hour) =>
            {
                var tank = Told(stage, fish, history);
                var (record, now) = (tank.Record, TankStory.At(1, hour));
                var findings = Assessment.Assess(record, now);
                var calls = MorningRound.Order([new TroubledTank<Finding>(record.Tank, fish, record.Calendar, [.. findings.Select(f => (f, f))])], now);
                return calls.All(c => c.ExpectedLoss >= 0 && c.ExpectedLoss <= fish && c.Troubles.Sum(t => t.ExpectedLoss) <= fish + 1e-6);
            },
            iter: 300);

    [Fact]
    public void The_order_of_the_round_does_not_depend_on_the_order_the_tanks_come_in() =>
        Gen.Select(Gen.Select(Stage, Gen.Int[1, 300], History).Array[2, 6], Gen.Int).Sample(
            (tanks, seed) =>
            {
                var now = TankStory.At(0, 12);
                var troubled = tanks.Select((t, i) => Troubled($"A{i:000}", Told(t.Item1, t.Item2, t.Item3).Record, now)).ToArray();
                var shuffled = troubled.ToArray();
                new Random(seed).Shuffle(shuffled);
                return Codes(MorningRound.Order(troubled, now)).SequenceEqual(Codes(MorningRound.Order(shuffled, now)));
            },
            iter: 150);

    private static TroubledTank<Finding> Troubled(string code, TankRecord record, DateTime now) =>
        new(record.Tank with { Code = code }, record.Fish, record.Calendar, [.. Assessment.Assess(record, now).Select(f => (f, f))]);

    private static IEnumerable<string> Codes(IReadOnlyList<Call<Finding>> calls) =>
        calls.SelectMany(c => c.Troubles.Select(t => $"{c.Tank.Code} {t.Rank} {t.Finding.Kind} {t.ExpectedLoss:R}"));

    private static HashSet<FlagKind> OfWater(Situation s) =>
        [.. Assessment.Assess(s.Record, s.Now).Select(f => f.Kind).Where(k => Dangers.Of(k) is Danger.Heat or Danger.Cold or Danger.Air or Danger.Poison)];
}
