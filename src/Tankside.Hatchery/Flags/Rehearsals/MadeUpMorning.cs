using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>A temperature that the intake asked about and nobody answered: seen, not counted.</summary>
public sealed record AskedTemperature(DateTime At, double Typed, TemperatureUnit Unit);

/// <summary>An invented classroom. No school of these names is meant.</summary>
public sealed record MadeUpRoom(string School, string Room, SchoolCalendar Calendar, bool NewTeacher, double DistanceKm, double ElevationM);

/// <summary>A tank of a made-up morning, with what a coordinator can know of it and what is really going on.</summary>
/// <param name="Record">What the rules judge it by, as if it were a tank of a programme.</param>
/// <param name="Findings">What the rules find at the start of the morning.</param>
public sealed record MadeUpTank(
    MadeUpRoom Room, Story Story, TankRecord Record, AskedTemperature? Asked, IReadOnlyList<Finding> Findings)
{
    public string Code => Record.Tank.Code;

    public int Fish => Record.Fish;

    /// <summary>The tank as the round takes it in.</summary>
    public TroubledTank<string> InRound => new(Record.Tank, Fish, Room.Calendar, [.. Findings.Select(f => (Code, f))]);

    public ReadingFact? LastReading => Record.Recent is [.., var last] ? last : null;
}

/// <summary>A whole invented morning, the same for the same seed. None of its fish exist.</summary>
/// <param name="Start">When the coordinator picks up the telephone, UTC.</param>
/// <param name="BreakDays">Closed days before this first day back; 0 on another day.</param>
/// <param name="Tanks">By their codes.</param>
public sealed record MadeUpMorning(int Seed, ProgrammeClock Clock, DateTime Start, int BreakDays, IReadOnlyList<MadeUpTank> Tanks)
{
    public IEnumerable<MadeUpTank> Troubled => Tanks.Where(t => t.Findings.Count > 0);

    public MadeUpTank? Find(string code) => Tanks.FirstOrDefault(t => t.Code == code);
}
