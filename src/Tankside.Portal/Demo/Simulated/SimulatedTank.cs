using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Flags;
using Tankside.Portal.Releases;
using Tankside.Science.Eggs;
using Tankside.Science.Units;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Demo.Simulated;

/// <summary>The rows of one tank's made-up season.</summary>
public sealed record SimulatedRows(
    IReadOnlyList<Reading> Readings, IReadOnlyList<LedgerEntry> Ledger, IReadOnlyList<TankDay> Days, IReadOnlyList<DayFacts> Recent, Receipt Receipt, Release? Release);

/// <summary>
/// Lives through one tank's season day by day: its water, its faults, who dies of what, what its logger and its class write down, and its
/// release. All rates are judgement. Two calls with the same programme and number tell the same.
/// </summary>
internal sealed class SimulatedTank
{
    /// <summary>Deaths a fish and day: a background, several times as many round the hatch, and a die-off in one tank of ten.</summary>
    private const double PerFishDay = 0.002, AtHatch = 3, DieOff = 0.1;

    /// <summary>Of the way to hatch: from there on every fish swims, and from there on they are let go.</summary>
    private const double Swim = 1.7, LetGo = 2.6;

    /// <summary>Chances of a school day on which nobody reads.</summary>
    private const double Unread = 0.06;

    private static readonly double RateAtHatchery = RateAt(10);

    private readonly SimulatedProgramme programme;
    private readonly SimulatedRoom room;
    private readonly DemoDice dice;
    private readonly SimulatedWater water;
    private readonly List<Reading> readings = [];
    private readonly List<LedgerEntry> ledger = [];
    private readonly DateOnly dieOffOn;
    private double fraction;
    private int alive;
    private int uncounted;

    private SimulatedTank(SimulatedProgramme programme, SimulatedRoom room)
    {
        this.programme = programme;
        this.room = room;
        dice = new DemoDice(unchecked((programme.Size.Seed * 397) ^ (room.Number * 7919)));
        water = new SimulatedWater(room.Tank, dice);
        fraction = RateAtHatchery * (room.DeliveredOn.DayNumber - room.Lot.FertilisedFrom.DayNumber);
        alive = room.Eggs;
        dieOffOn = dice.Chance(DieOff) ? room.DeliveredOn.AddDays(dice.Between(3, Math.Max(3, programme.Size.Days - 1))) : DateOnly.MaxValue;
    }

    public static SimulatedRows Tell(SimulatedProgramme programme, SimulatedRoom room) => new SimulatedTank(programme, room).Tell();

    private bool Swims => fraction >= Swim;

    private SimulatedRows Tell()
    {
        var receipt = Receive();
        var releasedOn = (DateOnly?)null;
        for (var day = room.DeliveredOn; day <= programme.LastDay && releasedOn is null; day = day.AddDays(1))
        {
            Live(day);
            if (fraction >= LetGo && alive > 0 && programme.Calendar.IsSchoolDay(day) && dice.Chance(0.2))
            {
                releasedOn = day;
            }
        }

        readings.Sort((a, b) => a.At.CompareTo(b.At));
        var release = releasedOn is { } on ? LetThemGo(on) : null;
        var facts = readings.Select(r => new ReadingFact(r.At, r.Seen, r.Source == ReadingSource.Class, r.ReceivedAt)).ToList();
        var (days, recent) = DayFolding.FoldAll(room.Tank.Id, facts, programme.Clock, programme.Now);
        return new SimulatedRows(readings, ledger, days, recent, receipt, release);
    }

    private Receipt Receive()
    {
        var at = programme.Clock.Utc(room.DeliveredOn, new TimeOnly(9, 15));
        var dead = dice.Between(0, 4);
        alive -= dead;
        ledger.Add(Line(LedgerKind.Received, room.Eggs, at));
        ledger.Add(Line(LedgerKind.DeadOnArrival, dead, at));
        return new Receipt
        {
            Id = dice.Id(),
            SeasonId = programme.Season.Id,
            TankId = room.Tank.Id,
            LotId = room.Lot.Id,
            At = at,
            Run = room.Run,
            Eggs = room.Eggs,
            DeadOnArrival = dead,
            CountedBy = CountMethod.Photo,
        };
    }

    /// <summary>A day: its deaths, its logger, its class.</summary>
    private void Live(DateOnly day)
    {
        var opens = programme.Clock.Utc(day, default);
        Die(day);
        var looksAt = programme.Calendar.IsSchoolDay(day) && day > room.DeliveredOn && !dice.Chance(Unread)
            ? programme.Clock.Utc(day, new TimeOnly(8, 30).AddMinutes(dice.Between(0, 110)))
            : (DateTime?)null;
        var closes = programme.Clock.Utc(day.AddDays(1), default);
        var step = TimeSpan.FromMinutes(programme.Size.LoggerMinutes ?? 60);
        var passed = opens;
        for (var at = opens; at < closes; at += step)
        {
            water.Pass((at - passed).TotalHours);
            passed = at;
            if (programme.Size.LoggerMinutes is not null)
            {
                Add(at, new Observation { WaterC = water.ReadC, RoomC = water.RoomC((at - opens).TotalHours), ChillerRunning = water.ChillerRuns }, ReadingSource.Logger, TemperatureUnit.C);
            }

            if (looksAt is { } look && look >= at && look < at + step)
            {
                Look(day, look);
            }
        }

        water.Pass((closes - passed).TotalHours);
        fraction += RateAt(Math.Clamp(water.ReadC, 4, 13));
    }

    private void Die(DateOnly day)
    {
        var hatching = fraction is > 0.97 and < 1.1;
        var dead = dice.Count(alive * PerFishDay * (hatching ? AtHatch : 1));
        if (day.DayNumber - dieOffOn.DayNumber is >= 0 and < 3)
        {
            dead += dice.Between(3, 25);
        }

        dead = Math.Min(dead, alive);
        alive -= dead;
        uncounted += dead;
    }

    private void Look(DateOnly day, DateTime at)
    {
        var celsius = room.Tank.UsualUnit == TemperatureUnit.F
            ? WaterTemperature.ToC(Math.Round(WaterTemperature.FromC(water.ReadC, TemperatureUnit.F)), TemperatureUnit.F)
            : Math.Round(water.ReadC * 2) / 2;
        var tests = day.DayOfWeek == DayOfWeek.Wednesday;
        var stopped = water.Fault == SimulatedFault.PumpStops;
        Add(at, new Observation
        {
            WaterC = Math.Round(celsius, 2),
            Moving = !stopped,
            Bubbles = !stopped,
            LevelOk = !dice.Chance(0.03),
            Clear = !dice.Chance(0.03),
            IceOnCoil = water.Fault == SimulatedFault.CoilIces && celsius < 5 ? true : null,
            DeadEggs = fraction < 1.05 ? uncounted : null,
            DeadAlevins = fraction >= 1.05 && !Swims ? uncounted : null,
            DeadFry = Swims ? uncounted : null,
            Hatched = fraction is > 0.9 and < 1.3 ? ShareOf(fraction, 0.98, 1.1) : null,
            Swimming = fraction is > 1.45 and < 2.1 ? ShareOf(fraction, 1.6, 1.8) : null,
            Fed = Swims ? true : null,
            Ph = tests ? Math.Round(dice.Around(7.2, 0.15), 1) : null,
            AmmoniaTotalMgL = tests ? (dice.Chance(0.2) ? 0.25 : 0) : null,
        }, ReadingSource.Class, room.Tank.UsualUnit);
        uncounted = 0;
    }

    private void Add(DateTime at, Observation seen, ReadingSource source, TemperatureUnit unit)
    {
        var reading = new Reading
        {
            SenderId = dice.Id(),
            TankId = room.Tank.Id,
            At = at,
            ReceivedAt = at.AddSeconds(2),
            Source = source,
            State = ReadingState.Accepted,
            Seen = seen,
            TypedWater = WaterTemperature.FromC(seen.WaterC!.Value, unit).ToString("0.#", CultureInfo.InvariantCulture),
            TypedUnit = unit,
            ContentHash = ReadingHash.Of(at, seen, null),
        };
        readings.Add(reading);
        ledger.AddRange(LossLines.Of(reading, programme.Season.Id));
    }

    /// <summary>Counted and let go at noon; what the count misses was eaten or never counted.</summary>
    private Release LetThemGo(DateOnly day)
    {
        var at = programme.Clock.Utc(day, new TimeOnly(12, 30));
        readings.RemoveAll(r => r.At > at);
        ledger.RemoveAll(l => l.At > at);
        var release = new Release
        {
            Id = dice.Id(),
            SeasonId = programme.Season.Id,
            TankId = room.Tank.Id,
            SiteId = programme.Site.Id,
            PermitId = programme.Permit.Id,
            At = at,
            Fish = Math.Max(1, alive - dice.Between(0, 8)),
            TankC = room.Tank.SetPointC,
            StreamC = Math.Round(dice.Around(8.5, 0.5), 1),
            EnteredAt = at,
            ReportedAt = at.AddDays(2),
        };
        ledger.Add(Line(LedgerKind.Released, release.Fish, at, release.Id));
        room.Tank.ClosedAt = at.AddHours(2);
        return release;
    }

    private LedgerEntry Line(LedgerKind kind, int count, DateTime at, Guid? release = null) => new()
    {
        SeasonId = programme.Season.Id,
        TankId = room.Tank.Id,
        Kind = kind,
        Count = count,
        At = at,
        EnteredAt = at,
        CountedBy = CountMethod.Hand,
        ReleaseId = release,
    };

    private static Share ShareOf(double fraction, double start, double end) => ((fraction - start) / (end - start)) switch
    {
        < 0 => Share.None,
        < 0.3 => Share.Some,
        < 0.6 => Share.Half,
        < 1 => Share.Most,
        _ => Share.All,
    };

    private static double RateAt(double celsius) => StageModels.TryFind(Species.RainbowTrout, Stage.Hatch, out var model, out var why)
        ? model.RateAt(new Celsius(celsius))
        : throw new InvalidOperationException(why);
}
