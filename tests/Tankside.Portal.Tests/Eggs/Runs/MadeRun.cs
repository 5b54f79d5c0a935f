using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Seasons;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>A run of today in the small made-up world: one depot, two drivers, a stop at each of its two tanks, not planned yet.</summary>
internal sealed class MadeRun
{
    public static readonly DateOnly Day = new(2027, 2, 3);

    public MadeRun(TestProgramme programme)
    {
        Season = programme.Season;
        Schools = [.. programme.Schools.Select(s => s.Id)];
        Run = new DeliveryRun { Id = Guid.NewGuid(), ProgrammeId = programme.Programme.Id, SeasonId = programme.Season.Id, Name = "R9", On = Day };
        Depot = new RunPlace { Id = Guid.NewGuid(), RunId = Run.Id, Kind = RunPlaceKind.Depot, Name = "Reed Hatchery", Latitude = 43.70, Longitude = -113.70 };
        Drivers =
        [
            NewDriver(1, "Dora Driver", $"{char.ToLowerInvariant(programme.Letter)}cdfghjk2345"),
            NewDriver(2, "Viktor Van", $"{char.ToLowerInvariant(programme.Letter)}cdfghjk6789"),
        ];
        Stops = [.. programme.Tanks.Select(t => new RunStop { Id = Guid.NewGuid(), RunId = Run.Id, TankId = t.Id, LotId = programme.Lot.Id, Eggs = 100, Visit = VisitKind.DropOnly })];
        Allotments = [.. programme.Tanks.Select(t => new Allotment { Id = Guid.NewGuid(), SeasonId = Season.Id, TankId = t.Id, LotId = programme.Lot.Id, Eggs = 300, DeliveryOn = Day })];
    }

    public DeliveryRun Run { get; }

    public RunPlace Depot { get; }

    public RunDriver[] Drivers { get; }

    public RunStop[] Stops { get; }

    public Allotment[] Allotments { get; }

    private Season Season { get; }

    private Guid[] Schools { get; }

    public void AddTo(HatcheryDb db)
    {
        foreach (var (index, id) in Schools.Index())
        {
            // Places that a run can drive to: 2 and 11 km from the depot.
            var school = db.Schools.Single(s => s.Id == id);
            (school.Latitude, school.Longitude) = (43.72 + (0.08 * index), -113.70);
        }

        db.AddRange(Run, Depot);
        db.AddRange(Drivers);
        db.AddRange(Stops);
        db.AddRange(Allotments);
    }

    private RunDriver NewDriver(int number, string name, string code) => new()
    {
        Id = Guid.NewGuid(),
        RunId = Run.Id,
        Number = number,
        Name = name,
        Phone = $"555-777{number}",
        DepotId = Depot.Id,
        Eggs = 500,
        From = new TimeOnly(8, 0),
        Until = new TimeOnly(16, 0),
        Code = code,
    };
}
