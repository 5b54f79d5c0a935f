using Tankside.Hatchery.Eggs.Runs;
using Tankside.Science.Units;

namespace Tankside.Portal.Demo;

/// <summary>
/// Two delivery runs: the one that brought the eggs of the second lot to four rooms, handed over and received, and the one of the next school day,
/// to the room whose water is still warm, not planned yet.
/// </summary>
public sealed class DemoRuns
{
    /// <summary>The receipts' own word for the run: of its lot, third of four.</summary>
    public const string PastName = "RB2-3";

    private static readonly GeoPoint Hatchery = new(43.7421, -113.7180), ColdRoom = new(43.7610, -113.6905);

    private readonly Dictionary<Guid, (Guid Stop, DateTime At)> arrivals = [];
    private readonly List<object> rows = [];
    private readonly DemoBasin basin;
    private readonly DemoDice dice;

    private DemoRuns(DemoBasin basin, DateOnly today)
    {
        this.basin = basin;
        // Chance of its own, so that the season's other numbers stay what they are.
        dice = new DemoDice(today.DayNumber + 1);
        var past = basin.Tanks.Where(t => t.Plan.Code == "RB2" && t.Number % 4 == 2).ToList();
        AddPast(past);
        AddComing(basin.Tanks.Single(t => t.Awaits), today);
    }

    public IReadOnlyList<object> Rows => rows;

    public static DemoRuns Build(DemoBasin basin, DateOnly today) => new(basin, today);

    /// <summary>The stop that a tank's eggs came by, and when; null for tanks of other runs.</summary>
    public (Guid Stop, DateTime At)? Of(DemoTank tank) => arrivals.TryGetValue(tank.Tank.Id, out var arrival) ? arrival : null;

    private void AddPast(IReadOnlyList<DemoTank> tanks)
    {
        var run = NewRun(PastName, tanks[0].DeliveredOn);
        (run.Plan, run.PlannedAt, run.Turn) = (PlanState.Planned, basin.Calendar.Clock.Utc(run.On.AddDays(-2), new TimeOnly(18, 20)), 3);
        var depot = AddPlaces(run);
        foreach (var (number, own) in tanks.OrderBy(t => t.School.Latitude).Chunk(2).Index())
        {
            var driver = NewDriver(run, depot, number + 1, number == 0 ? "Ola Brandt" : "Minh Tran", $"555-01{61 + number}");
            rows.Add(driver);
            AddRound(run, driver, own);
        }
    }

    /// <summary>Out at half past seven, and one stop after the other as the roads allow.</summary>
    private void AddRound(DeliveryRun run, RunDriver driver, IReadOnlyList<DemoTank> tanks)
    {
        var (place, minute) = (Hatchery, (7 * 60) + 30);
        driver.Leaves = DayWindow.TimeOf(minute);
        foreach (var (index, tank) in tanks.Index())
        {
            var school = new GeoPoint(tank.School.Latitude!.Value, tank.School.Longitude!.Value);
            var begins = Math.Max(DayWindow.MinuteOf(tank.School.OpensAt) + 5, minute + Roads.Usual.Minutes(place, school));
            var stop = NewStop(run, tank);
            (stop.Visit, stop.DriverId, stop.Place) = (VisitKind.DropOnly, driver.Id, index + 1);
            (stop.Begins, stop.Ends) = (DayWindow.TimeOf(begins), DayWindow.TimeOf(begins + run.DropMinutes));
            var loaded = basin.Calendar.Clock.Utc(run.On, new TimeOnly(7, 22 + index));
            var at = basin.Calendar.Clock.Utc(run.On, stop.Ends.Value).AddMinutes(dice.Between(-4, 3));
            rows.AddRange([stop, NewTick(stop, driver, TickDeed.Loaded, loaded), NewTick(stop, driver, TickDeed.HandedOver, at)]);
            arrivals[tank.Tank.Id] = (stop.Id, at);
            (place, minute) = (school, begins + run.DropMinutes);
        }

        driver.Back = DayWindow.TimeOf(minute + Roads.Usual.Minutes(place, Hatchery));
    }

    private void AddComing(DemoTank tank, DateOnly today)
    {
        var run = NewRun("RB2-5", basin.Calendar.SchoolDays(today, today.AddDays(30)).First());
        var depot = AddPlaces(run);
        rows.AddRange([NewDriver(run, depot, 1, "Ola Brandt", "555-0161"), NewStop(run, tank)]);
    }

    private RunPlace AddPlaces(DeliveryRun run)
    {
        var depot = new RunPlace { Id = dice.Id(), RunId = run.Id, Kind = RunPlaceKind.Depot, Name = "Alder Basin State Hatchery", Latitude = Hatchery.Latitude, Longitude = Hatchery.Longitude };
        rows.AddRange([run, depot, new RunPlace { Id = dice.Id(), RunId = run.Id, Kind = RunPlaceKind.HoldingTank, Name = "Cold room at Old Mill", Latitude = ColdRoom.Latitude, Longitude = ColdRoom.Longitude }]);
        return depot;
    }

    private DeliveryRun NewRun(string name, DateOnly on) => new() { Id = dice.Id(), ProgrammeId = basin.Programme.Id, SeasonId = basin.Season.Id, Name = name, On = on };

    private RunDriver NewDriver(DeliveryRun run, RunPlace depot, int number, string name, string phone) => new()
    {
        Id = dice.Id(),
        RunId = run.Id,
        Number = number,
        Name = name,
        Phone = phone,
        DepotId = depot.Id,
        Eggs = 1500,
        From = new TimeOnly(7, 0),
        Until = new TimeOnly(15, 0),
        Code = dice.RoomCode(),
    };

    private RunStop NewStop(DeliveryRun run, DemoTank tank) => new() { Id = dice.Id(), RunId = run.Id, TankId = tank.Tank.Id, LotId = tank.Lot.Id, Eggs = tank.Plan.Eggs };

    private RunTick NewTick(RunStop stop, RunDriver driver, TickDeed deed, DateTime at) =>
        new() { Id = dice.Id(), RunId = stop.RunId, StopId = stop.Id, DriverId = driver.Id, Deed = deed, At = at, ReceivedAt = at };
}
