using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Science.Units;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>A stop with what a reader wants to know of it.</summary>
/// <param name="Pack">Where its eggs are, by the ticks.</param>
/// <param name="Arrival">The receipt at the tank, once somebody entered it.</param>
public sealed record StopView(RunStop Stop, Tank Tank, Classroom Room, School School, EggLot Lot, PackAccount Pack, Receipt? Arrival)
{
    /// <summary>Handed over, at the holding tank or back: nothing is to be driven any more.</summary>
    public bool HasEnded => Pack.Place is not (PackPlace.AtTheDepot or PackPlace.InACar);

    public GeoPoint? At => GeoPoint.Of(School.Latitude, School.Longitude);

    public string Name => $"{School.Name}, {Room.Name}";
}

/// <summary>A run as it stands.</summary>
public sealed record RunView(
    DeliveryRun Run, Programme Programme, ProgrammeClock Clock, DateTime Now, IReadOnlyList<RunPlace> Places, IReadOnlyList<RunDriver> Drivers,
    IReadOnlyList<StopView> Stops, IReadOnlyList<Closure> Closures, IReadOnlyList<RunTick> Ticks)
{
    /// <summary>Areas that are marked, by snow or a flood for example.</summary>
    public IReadOnlyList<AreaSweep> Marks { get; init; } = [];

    public RunPlace? Holding => Places.FirstOrDefault(p => p.Kind == RunPlaceKind.HoldingTank);

    /// <summary>Those that are still to be driven or were.</summary>
    public IEnumerable<StopView> Standing => Stops.Where(s => s.Stop.OutAt is null);

    public IReadOnlyList<StopView> RoundOf(RunDriver driver) => [.. Stops.Where(s => s.Stop.DriverId == driver.Id && s.Stop.OutAt is null).OrderBy(s => s.Stop.Place)];

    public IReadOnlyList<StopView> LeftOut => [.. Standing.Where(s => s.Stop.Dropped is not null && !s.HasEnded)];

    /// <summary>Planned rounds that would stand before a locked door.</summary>
    public IReadOnlyList<StopView> Shut => [.. Standing.Where(s => s.Stop.DriverId is not null && !s.Stop.ToHolding && !s.HasEnded && IsShut(s.School))];

    public bool IsPlanning => Run.IsPlanningAt(Now);

    public string Day => Run.On.ToString("dddd d MMMM yyyy", CultureInfo.InvariantCulture);

    public static string Time(TimeOnly? time) => time?.ToString("HH:mm", CultureInfo.InvariantCulture) ?? "";

    public string Time(DateTime utc) => Clock.Local(utc).ToString(Clock.Day(utc) == Run.On ? "HH:mm" : "d MMM HH:mm", CultureInfo.InvariantCulture);

    /// <summary>No school on the day of the run: by its calendar, or because its area is marked.</summary>
    public bool IsShut(School school)
    {
        var closures = Closures.Where(c => c.SchoolId is null || c.SchoolId == school.Id).Select(c => (c.FirstDay, c.LastDay)).ToList();
        return !new SchoolCalendar(Clock, school.OpensAt, school.ClosesAt, closures).IsSchoolDay(Run.On)
            || Marks.Any(m => m.IsFor(school.Area) && m.ShutDays(Clock, school.OpensAt, school.ClosesAt, Now) is { } days && days.First <= Run.On && Run.On <= days.Last);
    }

    public DriverOnDay? OnRoad(RunDriver driver) => DriverOnDay.Of(driver, this);
}
