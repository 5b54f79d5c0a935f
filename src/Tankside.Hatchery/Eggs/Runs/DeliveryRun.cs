namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>Where a run's plan stands.</summary>
public enum PlanState
{
    None,

    /// <summary>A solver is at work on it.</summary>
    Planning,
    Planned,

    /// <summary>Something was changed since it was planned.</summary>
    Stale,
    Failed,
}

/// <summary>The eggs of one day on their way to many tanks.</summary>
public sealed class DeliveryRun
{
    /// <summary>Minutes with the class, sign-in and tempering included, and minutes when the box is only handed over (trade's own: 20-45, 10-15).</summary>
    public const int UsualTalk = 40, UsualDrop = 15;

    /// <summary>Our own default for minutes on the way: a morning. Damp and cold packed eyed eggs stand more; the hatchery's word wins.</summary>
    public const int UsualLongestOut = 240;

    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Guid SeasonId { get; init; }

    /// <summary>As receipts name it, and as a pattern over tanks is looked for along it.</summary>
    public required string Name { get; set; }

    public DateOnly On { get; set; }

    public double Detour { get; set; } = Roads.Usual.Detour;

    public double KmPerHour { get; set; } = Roads.Usual.KmPerHour;

    public int LongestOut { get; set; } = UsualLongestOut;

    public int TalkMinutes { get; set; } = UsualTalk;

    public int DropMinutes { get; set; } = UsualDrop;

    public PlanState Plan { get; set; }

    /// <summary>Raised by everything that changes what is to be planned: a plan made for an earlier turn is not kept.</summary>
    public int Turn { get; set; }

    public DateTime? PlannedAt { get; set; }

    /// <summary>When the solver began, and until when it is waited for: a portal that died leaves no run planning for ever.</summary>
    public DateTime? PlanningSince { get; set; }

    public DateTime? PlanningUntil { get; set; }

    public int Version { get; set; }

    public bool IsPlanningAt(DateTime now) => Plan == PlanState.Planning && now < PlanningUntil;

    /// <summary>Something of the day was changed.</summary>
    public void Changed()
    {
        Turn++;
        Plan = PlannedAt is null ? PlanState.None : PlanState.Stale;
    }
}

public enum RunPlaceKind
{
    /// <summary>Where eggs are loaded: the hatchery, or where they were brought overnight.</summary>
    Depot,

    /// <summary>A cold tank for the eggs of classes that are not ready.</summary>
    HoldingTank,
}

public sealed class RunPlace
{
    public Guid Id { get; init; }

    public Guid RunId { get; init; }

    public RunPlaceKind Kind { get; init; }

    public required string Name { get; init; }

    public double Latitude { get; init; }

    public double Longitude { get; init; }
}

/// <summary>Who drives: a member of the programme, or another adult by name and telephone.</summary>
public sealed class RunDriver
{
    public Guid Id { get; init; }

    public Guid RunId { get; init; }

    /// <summary>First, second, … driver of the run.</summary>
    public int Number { get; init; }

    public Guid? PersonId { get; init; }

    public required string Name { get; set; }

    public string? Phone { get; set; }

    /// <summary>The depot that the shift begins and ends at.</summary>
    public Guid DepotId { get; init; }

    public int Eggs { get; set; }

    public TimeOnly From { get; set; }

    public TimeOnly Until { get; set; }

    /// <summary>Opens the phone sheet; kept readable, because it is printed again.</summary>
    public required string Code { get; init; }

    /// <summary>When the driver dropped out.</summary>
    public DateTime? OutAt { get; set; }

    public TimeOnly? Leaves { get; set; }

    public TimeOnly? Back { get; set; }

    public int Version { get; set; }
}

/// <summary>What happens at a stop.</summary>
public enum VisitKind
{
    /// <summary>The driver talks with the class.</summary>
    Talk,
    DropOnly,
}

/// <summary>One tank's pack of eggs and how it gets there.</summary>
public sealed class RunStop
{
    public Guid Id { get; init; }

    public Guid RunId { get; init; }

    public Guid TankId { get; init; }

    public Guid LotId { get; init; }

    public int Eggs { get; set; }

    public VisitKind Visit { get; set; }

    /// <summary>Narrower than the school's hours: lunch, an assembly, a class that changes rooms.</summary>
    public TimeOnly? NotBefore { get; set; }

    public TimeOnly? NotAfter { get; set; }

    /// <summary>The tank is not ready: its eggs go to the holding tank.</summary>
    public bool ToHolding { get; set; }

    public Guid? PinnedDriverId { get; set; }

    public int? PinnedPlace { get; set; }

    /// <summary>When the school dropped out of this run.</summary>
    public DateTime? OutAt { get; set; }

    public Guid? DriverId { get; set; }

    public int? Place { get; set; }

    public TimeOnly? Begins { get; set; }

    public TimeOnly? Ends { get; set; }

    public DropReason? Dropped { get; set; }

    public int Version { get; set; }
}
