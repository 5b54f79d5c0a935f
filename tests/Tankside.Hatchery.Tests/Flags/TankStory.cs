using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>
/// A tank as a test tells it: 200 rainbow trout in 208 litres of bare glass at 10.5 °C, in a school open from 8:00 to 15:15 on the
/// Pacific coast. The days are folded from the readings, as the portal does.
/// </summary>
internal sealed class TankStory
{
    /// <summary>A Wednesday in January.</summary>
    public static readonly DateOnly Wednesday = new(2027, 1, 20);

    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");

    private readonly List<ReadingFact> readings = [];
    private readonly List<(DateOnly First, DateOnly Last)> closures = [];
    private readonly List<AreaMark> marks = [];
    private readonly List<(DateOnly First, DateOnly Last)> shut = [];
    private readonly Dictionary<string, double> own = [];

    private TankProfile tank = new() { Id = new Guid("0193a000-0000-7000-8000-000000000003"), Code = "A007" };
    private LotProfile lot;
    private int fish = 200;
    private SiblingLosses siblings = SiblingLosses.None;
    private LotLearned learned = LotLearned.Nothing;

    private TankStory(int ageInDays, int daysHere) => lot = new LotProfile(
        "L1", Species.RainbowTrout, Wednesday.AddDays(-ageInDays), Wednesday.AddDays(-ageInDays), 9, Wednesday.AddDays(-daysHere), "R1");

    /// <summary>Eyed eggs, here for five days.</summary>
    public static TankStory Eggs() => new(ageInDays: 20, daysHere: 5);

    /// <summary>Hatched a week ago.</summary>
    public static TankStory Alevins() => new TankStory(ageInDays: 42, daysHere: 27)
        .Seen(-7, 9, new Observation { WaterC = 10.5, Hatched = Share.All });

    /// <summary>All swim since two weeks.</summary>
    public static TankStory Fry() => new TankStory(ageInDays: 75, daysHere: 60)
        .Seen(-40, 9, new Observation { WaterC = 10.5, Hatched = Share.All })
        .Seen(-14, 9, new Observation { WaterC = 10.5, Swimming = Share.All });

    public static TankStory Of(LifeStage stage) => stage switch
    {
        LifeStage.Egg => Eggs(),
        LifeStage.Alevin => Alevins(),
        LifeStage.Fry => Fry(),
    };

    /// <summary>An instant by the school's own clock; day 0 is <see cref="Wednesday"/>.</summary>
    public static DateTime At(int day, int hour, int minute = 0) => Clock.Utc(Wednesday.AddDays(day), new TimeOnly(hour, minute));

    public TankStory Tank(Func<TankProfile, TankProfile> change)
    {
        tank = change(tank);
        return this;
    }

    public TankStory Lot(Func<LotProfile, LotProfile> change)
    {
        lot = change(lot);
        return this;
    }

    public TankStory Fish(int number)
    {
        fish = number;
        return this;
    }

    public TankStory Siblings(int deaths, double fishDays)
    {
        siblings = new SiblingLosses(deaths, fishDays);
        return this;
    }

    /// <summary>What was seen of the hatch in the lot's other tanks.</summary>
    public TankStory Learned(LotLearned seen)
    {
        learned = seen;
        return this;
    }

    public TankStory Closed(int first, int last)
    {
        closures.Add((Wednesday.AddDays(first), Wednesday.AddDays(last)));
        return this;
    }

    /// <summary>Days shut with no notice, and the mark that says why.</summary>
    public TankStory Shut(int first, int last, SweepReason reason = SweepReason.Snow)
    {
        shut.Add((Wednesday.AddDays(first), Wednesday.AddDays(last)));
        return Marked(new AreaMark(reason, At(first, 6, 30), null, null, null));
    }

    public TankStory Marked(AreaMark mark)
    {
        marks.Add(mark);
        return this;
    }

    public TankStory With(Setting setting, double value)
    {
        own[setting.Key] = value;
        return this;
    }

    public TankStory Seen(int day, double hour, Observation seen, bool byClass = true, DateTime? receivedAt = null)
    {
        readings.Add(new ReadingFact(At(day, 0).AddHours(hour), seen, byClass, receivedAt));
        return this;
    }

    public TankStory Water(int day, double hour, double celsius) => Seen(day, hour, new Observation { WaterC = celsius });

    public SchoolCalendar Calendar => new(Clock, new TimeOnly(8, 0), new TimeOnly(15, 15), closures, shut);

    public TankRecord Record
    {
        get
        {
            var known = readings.OrderBy(r => r.At).ToList();
            return new TankRecord
            {
                Tank = tank,
                Lot = lot,
                Fish = fish,
                Recent = HourlyFacts.Of([.. known.Where(r => r.At >= At(-TankRecord.RecentDays, 0))]),
                Days = TankDays.Fold(tank.Id, known, Clock),
                Calendar = Calendar,
                Marks = marks,
                Siblings = siblings,
                Learned = learned,
                Limits = new LimitSet(own),
            };
        }
    }

    /// <summary>As it stands on that day at that hour; noon of the Wednesday unless told otherwise.</summary>
    public Situation Situation(int day = 0, int hour = 12, int minute = 0) => new(Record, At(day, hour, minute));

    public IReadOnlyList<Finding> Findings(int day = 0, int hour = 12, int minute = 0) => Assessment.Assess(Record, At(day, hour, minute));
}
