using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Flags;
using Tankside.Portal.Readings;
using Tankside.Portal.Releases;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Demo;

/// <summary>Every class's readings from delivery to the last school day before today, and the ledger that follows from them.</summary>
public static class DemoReadings
{
    public static void Add(HatcheryDb db, DemoBasin basin, DemoRuns runs, DemoDice dice, DateTime now)
    {
        var today = basin.Calendar.Clock.Day(now);
        foreach (var tank in basin.Tanks)
        {
            var days = basin.Calendar.SchoolDays(tank.DeliveredOn.AddDays(-1), today.AddDays(-1)).ToList();
            if (!tank.Awaits)
            {
                Receive(db, basin, tank, runs.Of(tank), dice);
            }

            var story = new DemoStory(tank, basin.Calendar, dice);
            var seen = story.Tell(days);
            var facts = new List<ReadingFact>();
            foreach (var (at, typed, observation, asked) in seen)
            {
                var reading = Store(db, tank, at, typed, observation, asked, dice);
                if (reading.Counts)
                {
                    facts.Add(new ReadingFact(reading.At, reading.Seen, ByClass: true));
                    new LossLines().Add(db, reading, null, basin.Season.Id);
                }
            }

            DayFolding.AddAll(db, tank.Tank.Id, facts, basin.Calendar.Clock, now);
            DemoReleases.Add(db, basin, tank, facts, dice);
        }
    }

    private static void Receive(HatcheryDb db, DemoBasin basin, DemoTank tank, (Guid Stop, DateTime At)? run, DemoDice dice)
    {
        var at = run?.At ?? basin.Calendar.Clock.Utc(tank.DeliveredOn, new TimeOnly(9 + (tank.Number % 4), 15));
        var eggs = tank.Plan.Eggs + dice.Between(-6, 8);
        var dead = dice.Between(0, 4);
        db.Receipts.Add(new Receipt
        {
            Id = dice.Id(),
            SeasonId = basin.Season.Id,
            TankId = tank.Tank.Id,
            LotId = tank.Lot.Id,
            At = at,
            Run = $"{tank.Plan.Code}-{1 + (tank.Number % 4)}",
            Eggs = eggs,
            DeadOnArrival = dead,
            CountedBy = CountMethod.Photo,
            BoxC = Math.Round(dice.Around(7, 1), 1),
            TankC = tank.Tank.SetPointC,
            StopId = run?.Stop,
            TemperedMinutes = run is null ? null : 40,
            ReceivedBy = run is null ? null : "Front office",
        });
        Line(LedgerKind.Received, eggs);
        Line(LedgerKind.DeadOnArrival, dead);

        void Line(LedgerKind kind, int count) => db.Ledger.Add(new LedgerEntry
        {
            SeasonId = basin.Season.Id,
            TankId = tank.Tank.Id,
            Kind = kind,
            Count = count,
            At = at,
            EnteredAt = at,
            CountedBy = CountMethod.Photo,
        });
    }

    private static Reading Store(
        HatcheryDb db, DemoTank tank, DateTime at, double typed, Observation seen, bool asked, DemoDice dice)
    {
        var unit = asked ? TemperatureUnit.C : tank.Tank.UsualUnit;
        var text = typed.ToString("0.#", CultureInfo.InvariantCulture);
        var celsius = Math.Round(WaterTemperature.ToC(typed, unit), 2);
        var incoming = new IncomingReading
        {
            SenderId = dice.Id(),
            TankId = tank.Tank.Id,
            At = at,
            Seen = seen,
            Water = new TypedWater(text, typed, unit, "water"),
            Source = ReadingSource.Class,
        };
        var reading = new Reading
        {
            SenderId = incoming.SenderId,
            TankId = tank.Tank.Id,
            At = Instants.ToMillisecond(at),
            ReceivedAt = Instants.ToMillisecond(at),
            Source = ReadingSource.Class,
            State = asked ? ReadingState.Asked : ReadingState.Accepted,
            Seen = seen with { WaterC = celsius },
            TypedWater = text,
            TypedUnit = unit,
            DoubtfulField = asked ? "water" : null,
            Doubt = asked ? Doubt.OtherScale : null,
            ContentHash = Intake.HashOf(incoming),
        };
        db.Readings.Add(reading);
        return reading;
    }
}
