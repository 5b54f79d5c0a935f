using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>A made-up morning as it stands: the calls made, and the time they took.</summary>
public sealed class WorkedMorning(RehearsalMorning row, string workedBy, bool mine, TemperatureUnit unit, double minutesACall)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    private RehearsalResult? result;

    public RehearsalMorning Row { get; } = row;

    public MadeUpMorning Morning { get; } = Rehearsing.Morning(row.Seed);

    public string WorkedBy { get; } = workedBy;

    /// <summary>True for the person who works it; a lead only looks on.</summary>
    public bool Mine { get; } = mine;

    public TemperatureUnit Unit { get; } = unit;

    public double MinutesACall { get; } = minutesACall;

    /// <summary>What the programme says in its own words: it is practised with them.</summary>
    public OwnTexts Texts { get; init; } = OwnTexts.None;

    public StageNames Names => StageNames.Of(Texts);

    public bool Finished => Row.FinishedAt is not null;

    public int Calls => Row.Called.Count;

    /// <summary>The calls' results can be told once the morning is over.</summary>
    public RehearsalResult Result => result ??= RehearsalResult.Of(Morning, Row.Called, MinutesACall);

    /// <summary>The made-up moment it is now: the start, and the minutes of every call.</summary>
    public DateTime Now => Morning.Start + (Calls * TimeSpan.FromMinutes(MinutesACall));

    public TimeWords Time => new(Morning.Clock, Now);

    public ScaleWords Scale => new(Unit);

    /// <summary>The made-up time at which a tank was called; null while it has not been.</summary>
    public DateTime? CalledAt(string code) => Row.Called.Index().FirstOrDefault(c => c.Item == code) is { Item: not null } found
        ? Morning.Start + (found.Index * TimeSpan.FromMinutes(MinutesACall))
        : null;

    public string Clock(DateTime utc) => Morning.Clock.Local(utc).ToString("HH:mm", Plain);

    public string Day => Morning.Clock.Local(Morning.Start).ToString("dddd d MMMM", Plain);

    /// <summary>"open 07:55 to 14:45", "closed today".</summary>
    public string Hours(MadeUpTank tank) => tank.Room.Calendar is var calendar && calendar.IsSchoolDay(Morning.Clock.Day(Now))
        ? string.Create(Plain, $"open {calendar.Opens:HH:mm} to {calendar.Closes:HH:mm}")
        : calendar.WindowAtOrAfter(Now) is { } next ? $"closed today, opens {Morning.Clock.Local(next.Opens).ToString("ddd HH:mm", Plain)}" : "closed today";

    /// <summary>The rules' sentences on a tank as the time now stands; by kind, since their order is what is practised.</summary>
    public IEnumerable<string> Reasons(MadeUpTank tank, DateTime at) => tank.Findings.OrderBy(f => f.Kind)
        .Select(f => new ReasonWords(tank.Room.Calendar, tank.Fish, at, Unit, Names).Of(f));

    /// <summary>The trouble that the round would name first.</summary>
    public Finding? Leading(MadeUpTank tank) => MorningRound.Order([tank.InRound], Morning.Start) is [var call, ..] ? call.Troubles[0].Finding : null;

    public LifeStage Stage(MadeUpTank tank) => new Situation(tank.Record, Morning.Start).Stage;

    /// <summary>"Wed 08:25": when somebody would have acted on a tank that nobody calls.</summary>
    public string NextAct(MadeUpTank tank) => Morning.Clock.Local(MorningRound.ActTimes(tank.Room.Calendar, Morning.Start).IfNot).ToString("ddd HH:mm", Plain);
}
