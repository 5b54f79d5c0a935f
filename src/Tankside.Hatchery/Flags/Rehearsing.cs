using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Makes up a morning to practise the round on: twenty-four tanks in twelve rooms of an invented valley, seven to nine of them in trouble,
/// some that only look it. They are judged by the very rules, with the published defaults, so that a seed is the same morning everywhere.
/// </summary>
public static class Rehearsing
{
    /// <summary>Seeds that a person can read out: "morning 4711".</summary>
    public const int LeastSeed = 1, MostSeed = 99_999;

    private static readonly double[] Sizes = [208, 208, 208, 151, 110, 76];

    public static MadeUpMorning Morning(int seed)
    {
        var dice = new SeededDice(seed);
        var places = new MadeUpPlaces(dice);
        var plans = Plans(places, dice);
        var told = plans.Select(p => (Plan: p, Told: new MadeUpReadings(p, places.All[p.Room].Calendar, places.Start, dice).Tell())).ToList();
        var siblings = told.ToLookup(t => t.Plan.Lot.Code, t => (t.Plan.Code, Losses: LossesOf(t.Plan, t.Told.Readings, places.Clock)));
        return new MadeUpMorning(
            seed, places.Clock, places.Start, BreakDays(places),
            [.. told.Select(t => TankOf(t.Plan, t.Told, places, seed, siblings[t.Plan.Lot.Code].Where(s => s.Code != t.Plan.Code).Select(s => s.Losses)))]);
    }

    private static int BreakDays(MadeUpPlaces places) => places.BreakFirst is null ? 0 : places.All[0].Calendar.ClosedDaysBefore(places.Today);

    private static List<MadeUpTankPlan> Plans(MadeUpPlaces places, SeededDice dice)
    {
        var stories = StoriesOf(places, dice);
        var plans = new List<MadeUpTankPlan>();
        foreach (var (index, story) in stories.Index())
        {
            var stage = dice.Pick(Stories.StagesOf(story));
            var fish = stage == LifeStage.Fry ? dice.Between(70, 130) : dice.Between(120, 230);
            var litres = story == Story.PumpOutBigFish ? dice.Pick([76.0, 110, 151]) : dice.Pick(Sizes);
            var reads = dice.Chance(0.8) || places.BreakFirst is not null || Stories.ShownByToday(story);
            plans.Add(new MadeUpTankPlan(
                index / MadeUpPlaces.TanksInARoom, $"R{index + 1:00}", story, stage, places.LotOf(stage, story == Story.LateHatch), fish, litres,
                dice.Chance(0.3) ? Jacket.Foam : Jacket.None, reads && !Stories.TellsOfToday(story), places.BreakFirst is not null));
        }

        return plans;
    }

    /// <summary>A story for every tank. No room has two troubles: one call would serve both, and a call is counted for one tank.</summary>
    private static Story[] StoriesOf(MadeUpPlaces places, SeededDice dice)
    {
        var drawn = TroublesOf(places, dice);
        var stories = new Story[MadeUpPlaces.Rooms * MadeUpPlaces.TanksInARoom];
        var rooms = dice.Shuffled(Enumerable.Range(0, MadeUpPlaces.Rooms).Where(r => r != places.ClosedRoom));
        foreach (var (room, story) in rooms.Zip(drawn))
        {
            stories[(room * MadeUpPlaces.TanksInARoom) + dice.Between(0, 1)] = story;
        }

        if (places.ClosedRoom is { } closed)
        {
            Array.Fill(stories, Story.SchoolClosed, closed * MadeUpPlaces.TanksInARoom, MadeUpPlaces.TanksInARoom);
        }

        var free = dice.Shuffled(Enumerable.Range(0, stories.Length).Where(i => stories[i] == Story.Well));
        foreach (var (tank, story) in free.Zip(dice.Shuffled(Stories.Harmless).Take(4)))
        {
            stories[tank] = story;
        }

        return stories;
    }

    /// <summary>Two or three in which minutes count, three or four in which the day does, two that can wait; after a break a silence too.</summary>
    private static List<Story> TroublesOf(MadeUpPlaces places, SeededDice dice) =>
    [
        .. dice.Shuffled(Stories.MinutesCount).Take(dice.Between(2, 3)),
        .. dice.Shuffled(Stories.DayCounts).Take(dice.Between(3, 4)),
        .. dice.Shuffled(places.BreakFirst is null ? Stories.CanWait : [.. Stories.CanWait, Story.SilentAfterBreak]).Take(2),
    ];

    private static SiblingLosses LossesOf(MadeUpTankPlan plan, IReadOnlyList<ReadingFact> readings, ProgrammeClock clock)
    {
        var counted = TankDays.Fold(Guid.Empty, readings, clock).Where(d => d.Dead is not null).ToList();
        return counted.Count == 0
            ? SiblingLosses.None
            : new SiblingLosses(counted.Sum(d => d.Dead!.Value), (double)plan.Fish * (counted[^1].Day.DayNumber - plan.Lot.DeliveredOn.DayNumber + 1));
    }

    private static MadeUpTank TankOf(
        MadeUpTankPlan plan, (IReadOnlyList<ReadingFact> Readings, AskedTemperature? Asked) told, MadeUpPlaces places, int seed, IEnumerable<SiblingLosses> siblings)
    {
        var room = places.All[plan.Room];
        var id = new Guid(seed, 0, (short)plan.Room, [0, 0, 0, 0, 0, 0, 0, byte.Parse(plan.Code.AsSpan(1), System.Globalization.CultureInfo.InvariantCulture)]);
        var record = new TankRecord
        {
            Tank = new TankProfile
            {
                Id = id,
                Code = plan.Code,
                Litres = plan.Litres,
                Jacket = plan.Jacket,
                SetPointC = Math.Round(WaterTemperature.ToC(plan.SetF, TemperatureUnit.F), 2),
                ElevationM = room.ElevationM,
                NewTeacher = room.NewTeacher,
                DistanceKm = room.DistanceKm,
            },
            Lot = plan.Lot,
            Fish = plan.Fish,
            Recent = HourlyFacts.Of([.. told.Readings.Where(r => r.At >= places.Start.AddDays(-TankRecord.RecentDays))]),
            Days = TankDays.Fold(id, told.Readings, places.Clock),
            Calendar = room.Calendar,
            Siblings = siblings.Aggregate(SiblingLosses.None, (sum, s) => new SiblingLosses(sum.Deaths + s.Deaths, sum.FishDays + s.FishDays)),
        };
        return new MadeUpTank(room, plan.Story, record, told.Asked, Assessment.Assess(record, places.Start));
    }
}
