using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A delivery run with everything filled in, and once more with what may be left out.</summary>
internal static class SampleRuns
{
    private static readonly DateTime At = SampleRows.At;

    public static IReadOnlyList<object> Of(TestProgramme p)
    {
        var run = new DeliveryRun
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            SeasonId = p.Season.Id,
            Name = "R7",
            On = new DateOnly(2027, 2, 4),
            Detour = 1.4,
            KmPerHour = 42.5,
            LongestOut = 200,
            TalkMinutes = 35,
            DropMinutes = 12,
            Plan = PlanState.Planning,
            Turn = 3,
            PlannedAt = At,
            PlanningSince = At,
            PlanningUntil = At.AddMinutes(1),
        };
        var depot = new RunPlace { Id = Guid.NewGuid(), RunId = run.Id, Kind = RunPlaceKind.Depot, Name = "Hatchery", Latitude = 43.7, Longitude = -113.8 };
        var driver = new RunDriver
        {
            Id = Guid.NewGuid(),
            RunId = run.Id,
            Number = 1,
            PersonId = p.People[Role.KitHand].Id,
            Name = "Kit",
            Phone = "555-0142",
            DepotId = depot.Id,
            Eggs = 900,
            From = new TimeOnly(7, 0),
            Until = new TimeOnly(15, 30),
            Code = "bcdf23456789",
            OutAt = At,
            Leaves = new TimeOnly(7, 40),
            Back = new TimeOnly(13, 5),
        };
        var stop = new RunStop
        {
            Id = Guid.NewGuid(),
            RunId = run.Id,
            TankId = p.Tanks[0].Id,
            LotId = p.Lot.Id,
            Eggs = 150,
            Visit = VisitKind.DropOnly,
            NotBefore = new TimeOnly(9, 0),
            NotAfter = new TimeOnly(11, 30),
            ToHolding = true,
            PinnedDriverId = driver.Id,
            PinnedPlace = 2,
            OutAt = At,
            DriverId = driver.Id,
            Place = 1,
            Begins = new TimeOnly(9, 10),
            Ends = new TimeOnly(9, 25),
            Dropped = DropReason.NoTimeLeft,
        };
        return
        [
            run, depot, driver, stop,
            new DeliveryRun { Id = Guid.NewGuid(), ProgrammeId = p.Programme.Id, SeasonId = p.Season.Id, Name = "R8", On = new DateOnly(2027, 2, 5) },
            new RunDriver { Id = Guid.NewGuid(), RunId = run.Id, Number = 2, Name = "Volunteer", DepotId = depot.Id, Code = "cdfg23456789" },
            new RunStop { Id = Guid.NewGuid(), RunId = run.Id, TankId = p.Tanks[1].Id, LotId = p.Lot.Id, Eggs = 1 },
            new RunTick { Id = Guid.NewGuid(), RunId = run.Id, StopId = stop.Id, DriverId = driver.Id, Deed = TickDeed.HandedOver, At = At, ReceivedAt = At.AddMinutes(9) },
            new Receipt
            {
                Id = Guid.NewGuid(), SeasonId = p.Season.Id, TankId = p.Tanks[0].Id, LotId = p.Lot.Id, At = At, Run = "R7", Eggs = 149, DeadOnArrival = 1,
                CountedBy = CountMethod.Photo, StopId = stop.Id, TemperedMinutes = 35, ReceivedBy = "Front office",
            },
        ];
    }
}
