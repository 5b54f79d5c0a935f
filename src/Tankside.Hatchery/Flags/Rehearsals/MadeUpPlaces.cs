using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>The day, the rooms and the lots of a made-up morning in the invented Alder Basin.</summary>
internal sealed class MadeUpPlaces
{
    public const int Rooms = 12, TanksInARoom = 2;

    /// <summary>The invented valley's own zone, so that a seed gives the same morning to every programme.</summary>
    private const string TimeZone = "America/Denver";

    private static readonly DateOnly FirstMonday = new(2027, 1, 18);

    private static readonly (string School, string Room)[] Names =
    [
        ("Dipper Bend School", "Room 2"), ("Dipper Bend School", "Room 5"), ("Mossy Weir Elementary", "Room 1"), ("Mossy Weir Elementary", "Room 8"),
        ("Slate Ferry School", "Room 4"), ("Slate Ferry School", "Room 6"), ("Rushlight Elementary", "Room 3"), ("Caddis Lane School", "Room 7"),
        ("Tall Alder Elementary", "Room 12"), ("Pebble Hill School", "Room 9"), ("Heronsgate Elementary", "Room 2"), ("Snowmelt School", "Room 10"),
    ];

    public MadeUpPlaces(SeededDice dice)
    {
        Clock = ProgrammeClock.Of(TimeZone);
        var monday = FirstMonday.AddDays(7 * dice.Between(0, 7));
        var backFromBreak = dice.Chance(0.25);
        Today = backFromBreak ? monday : monday.AddDays(dice.Between(0, 4));
        BreakFirst = backFromBreak ? monday.AddDays(-(dice.Chance(0.5) ? 7 : 3)) : null;
        Start = backFromBreak
            ? Clock.Utc(Today, new TimeOnly(10, 5).AddMinutes(5 * dice.Between(0, 4)))
            : Clock.Utc(Today, new TimeOnly(8, 40).AddMinutes(5 * dice.Between(0, 4)));
        ClosedRoom = backFromBreak || dice.Chance(0.4) ? null : dice.Between(6, Rooms - 1);
        All = RoomsOf(dice);
    }

    public ProgrammeClock Clock { get; }

    public DateOnly Today { get; }

    public DateTime Start { get; }

    /// <summary>First closed day of a break that ended yesterday.</summary>
    public DateOnly? BreakFirst { get; }

    /// <summary>A room whose school is shut today and has been for days; it stands alone in its school.</summary>
    public int? ClosedRoom { get; }

    public IReadOnlyList<MadeUpRoom> All { get; }

    /// <summary>The eggs of a stage: days since they were spawned and delivered, such that they are in that stage today.</summary>
    public LotProfile LotOf(LifeStage stage, bool late)
    {
        var (code, spawned, delivered) = (stage, late) switch
        {
            (LifeStage.Egg, false) when BreakFirst is not null => ("RT3", 24, 10), // On the last school day before the break.
            (LifeStage.Egg, false) => ("RT3", 20, 6),
            (LifeStage.Egg, true) or (LifeStage.Alevin, _) => ("RT2", 44, 23),
            (LifeStage.Fry, _) => ("RT1", 150, 130),
        };
        return new LotProfile(
            code, Species.RainbowTrout, Today.AddDays(-spawned), Today.AddDays(-spawned), 10, Weekday(Today.AddDays(-delivered)), null);
    }

    private List<MadeUpRoom> RoomsOf(SeededDice dice)
    {
        var hours = new Dictionary<string, (TimeOnly Opens, TimeOnly Closes)>(StringComparer.Ordinal);
        var rooms = new List<MadeUpRoom>();
        foreach (var (index, (school, room)) in Names.Index())
        {
            if (!hours.TryGetValue(school, out var open))
            {
                open = (new TimeOnly(7, 45).AddMinutes(5 * dice.Between(0, 6)), new TimeOnly(14, 30).AddMinutes(15 * dice.Between(0, 4)));
                hours.Add(school, open);
            }

            var calendar = new SchoolCalendar(Clock, open.Opens, open.Closes, ClosuresOf(index));
            rooms.Add(new MadeUpRoom(school, room, calendar, dice.Chance(0.25), dice.Between(2, 60), 1400 + (20 * dice.Between(0, 20))));
        }

        return rooms;
    }

    private List<(DateOnly First, DateOnly Last)> ClosuresOf(int room)
    {
        List<(DateOnly First, DateOnly Last)> closures = [];
        if (BreakFirst is { } first)
        {
            closures.Add((first, Today.AddDays(-1)));
        }

        if (ClosedRoom == room)
        {
            closures.Add((Today.AddDays(-4), Today.AddDays(3)));
        }

        return closures;
    }

    private static DateOnly Weekday(DateOnly day) => day.DayOfWeek switch
    {
        DayOfWeek.Saturday => day.AddDays(-1),
        DayOfWeek.Sunday => day.AddDays(-2),
        _ => day,
    };
}
