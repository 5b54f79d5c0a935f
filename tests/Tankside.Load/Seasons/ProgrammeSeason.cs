using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Load.Seasons;

/// <summary>
/// A whole programme's season with no shared cause in it: tanks with losses of their own, kit that fails, rooms and schools that fall silent,
/// each by itself. Every school day the shared causes are looked for as the portal does.
/// </summary>
public sealed class ProgrammeSeason
{
    private static readonly Hazard AnyHazard = Hazard.Around(default, 24, 0.1);

    private static readonly FlagKind[] OfKit =
        [FlagKind.WarmingFast, FlagKind.ChillerFault, FlagKind.PumpFault, FlagKind.IcedCoil, FlagKind.Warm];

    private static readonly FlagKind[] OfWater = [FlagKind.Ammonia, FlagKind.Chlorine, FlagKind.Metals];

    private readonly SeasonModel model;
    private readonly LimitSet limits;
    private readonly Random random;
    private readonly Room[] rooms;

    /// <summary>A tank with what it shares and what stands there.</summary>
    private sealed class Room
    {
        public required SharedCauseTank Keys { get; init; }

        public required TankSeason Tank { get; init; }

        /// <summary>Troubles with the day they end.</summary>
        public List<(StandingTrouble Trouble, int Until)> Troubles { get; } = [];

        public StandingTrouble? DieOff { get; set; }
    }

    public ProgrammeSeason(SeasonModel model, LimitSet limits, Random random, int tanks)
    {
        this.model = model;
        this.limits = limits;
        this.random = random;
        var lots = Math.Max(1, (int)Math.Round(tanks / 20.0));
        var hatches = Enumerable.Range(0, lots).Select(_ => model.HatchDay + random.Next(-3, 4)).ToArray();
        rooms = [.. Enumerable.Range(0, tanks).Select(i => RoomOf(i, i * lots / tanks, hatches))];
    }

    public int Tanks => rooms.Length;

    public IEnumerable<TankSeason> OfLot(string lot) => rooms.Where(r => r.Keys.Lot == lot).Select(r => r.Tank);

    /// <summary>Lives through a day and looks for shared causes; none are looked for on a closed day.</summary>
    public IReadOnlyList<Finding> Live(int day, Func<TankSeason, double>? times = null)
    {
        foreach (var room in rooms)
        {
            var counted = room.Tank.Live(day, times?.Invoke(room.Tank) ?? 1);
            if (counted)
            {
                Judge(room, day);
            }
        }

        if (!SeasonModel.IsSchoolDay(day))
        {
            return [];
        }

        Trouble(day);
        return SharedCauses.Find([.. rooms.Where(r => r.Tank.Delivered <= day).Select(r => Seen(r, day))], limits);
    }

    /// <summary>Lots of about twenty, runs of eight within them; areas, water and chiller batches lie across.</summary>
    private Room RoomOf(int i, int lot, int[] hatches)
    {
        var school = i * 2 / 3;
        return new Room
        {
            Keys = new SharedCauseTank
            {
                Code = $"T{i:000}",
                Fish = model.Fish,
                School = $"S{school}",
                Lot = $"L{lot}",
                Run = $"R{i / 8}",
                Area = $"A{school % Math.Max(2, hatches.Length)}",
                Water = $"W{school * 7 % (2 + (2 * hatches.Length))}",
                ChillerBatch = $"C{random.Next(2 * hatches.Length)}",
            },
            Tank = new TankSeason(model, random, 2 * (i / 8 % 6), hatches[lot]),
        };
    }

    private void Judge(Room room, int day)
    {
        var siblings = rooms.Where(r => r != room && r.Keys.Lot == room.Keys.Lot).ToList();
        var verdict = room.Tank.Judge(new SiblingLosses(siblings.Sum(s => s.Tank.Deaths), siblings.Sum(s => s.Tank.FishDays)), limits);
        room.DieOff = verdict is null ? null : DieOff(verdict, room.DieOff?.Since ?? At(day));
    }

    private static StandingTrouble DieOff(LossVerdict v, DateTime since) => new(
        new Finding(
            FlagKind.DieOff, Urgency.Today, since, new LossEvidence(LifeStage.Egg, v.Dead, v.Days, v.LastDay, v.Expected, v.Tail, 0, v.Rising), AnyHazard),
        since);

    /// <summary>What else goes wrong by itself.</summary>
    private void Trouble(int day)
    {
        var shut = rooms.Select(r => r.Keys.School).Distinct().Where(_ => random.Chance(model.SchoolSilence)).ToHashSet();
        foreach (var room in rooms)
        {
            room.Troubles.RemoveAll(t => t.Until <= day);
            Begin(room, day, random.Chance(model.KitTrouble), OfKit);
            Begin(room, day, random.Chance(model.WaterTrouble), OfWater);
            Begin(room, day, shut.Contains(room.Keys.School) || random.Chance(model.Silence), [FlagKind.Silent]);
        }
    }

    private void Begin(Room room, int day, bool begins, FlagKind[] kinds)
    {
        if (begins)
        {
            room.Troubles.Add((Standing(kinds[random.Next(kinds.Length)], At(day)), day + 1 + random.Next(4)));
        }
    }

    private static StandingTrouble Standing(FlagKind kind, DateTime at) => new(
        new Finding(kind, Urgency.Today, at, new SilenceEvidence(LifeStage.Egg, null, 2, 0, false, null), AnyHazard), at);

    private static DateTime At(int day) => SeasonModel.First.AddDays(day).ToDateTime(new TimeOnly(9, 0), DateTimeKind.Utc);

    private SharedCauseTank Seen(Room room, int day)
    {
        var tank = room.Tank;
        var from = SeasonModel.First.AddDays(day - SharedCauseTank.LossDays);
        var first = tank.Counts.FindIndex(c => c.Day > from);
        var dead = first < 0 ? 0 : tank.Counts.Skip(first).Sum(c => c.Dead);
        var usual = UsualLoss.Of(limits, SiblingLosses.None, tank.DeliveredOn, tank.BelievedHatch);
        return room.Keys with
        {
            Fish = tank.Alive,
            Dead = dead,
            Expected = dead == 0 ? 0 : SharedCauseTank.Usually(tank.Counts, first, tank.Alive + dead, usual, d => SeasonModel.IsSchoolDay(d.DayNumber - SeasonModel.First.DayNumber)),
            Troubles = [.. room.Troubles.Select(t => t.Trouble), .. room.DieOff is { } d ? [d] : Array.Empty<StandingTrouble>()],
        };
    }
}
