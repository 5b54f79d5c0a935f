namespace Tankside.Hatchery.Places;

/// <summary>What the water supplier puts in the tap water. It decides which advice a water change needs.</summary>
public enum Disinfectant
{
    Unknown,
    None,
    Chlorine,
    Chloramine,
}

/// <summary>A school building that hosts tanks.</summary>
public sealed class School
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Name { get; set; }

    /// <summary>The part of the region that shares weather and power, e.g. "north".</summary>
    public required string Area { get; set; }

    public TimeOnly OpensAt { get; set; } = new(8, 0);

    public TimeOnly ClosesAt { get; set; } = new(15, 15);

    /// <summary>From when eggs and kit may be brought; null: as soon as it opens.</summary>
    public TimeOnly? DeliverFrom { get; set; }

    /// <summary>By when a driver has to be gone; null: until it closes.</summary>
    public TimeOnly? DeliverBy { get; set; }

    /// <summary>Bells and breaks as the school writes them: when a call reaches the teacher.</summary>
    public string? BellTimes { get; set; }

    /// <summary>For drivers: where to park, which door, who signs in. Adults' names alone.</summary>
    public string? DoorNotes { get; set; }

    public Disinfectant Disinfectant { get; set; }

    /// <summary>Who supplies the water, so that schools on one main can be seen together.</summary>
    public string? WaterSupply { get; set; }

    /// <summary>What else is known of the water: old pipes, a well that runs dry, a tap that is to be let run.</summary>
    public string? WaterNotes { get; set; }

    public double? Latitude { get; set; }

    public double? Longitude { get; set; }

    /// <summary>Height above sea level in metres; oxygen saturation depends on it.</summary>
    public double ElevationM { get; set; }

    /// <summary>Kilometres from the coordinator, as the last tie-breaker of the round.</summary>
    public double DistanceKm { get; set; }

    public int Version { get; set; }

    /// <summary>When a driver may stand at the door, which lies within the school's hours.</summary>
    public (TimeOnly From, TimeOnly By) TakesDeliveries =>
        (DeliverFrom is { } from && from > OpensAt ? from : OpensAt, DeliverBy is { } by && by < ClosesAt ? by : ClosesAt);
}

/// <summary>Days on which a school, or with no school named the whole programme, is shut.</summary>
public sealed class Closure
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Guid? SchoolId { get; init; }

    public DateOnly FirstDay { get; init; }

    public DateOnly LastDay { get; init; }

    public required string Reason { get; set; }
}

/// <summary>A room with a tank. The adult is named in People; nothing about a child is ever kept.</summary>
public sealed class Classroom
{
    public Guid Id { get; init; }

    public Guid SchoolId { get; init; }

    public required string Name { get; set; }

    /// <summary>First season for this teacher: such rooms need more visits.</summary>
    public bool NewTeacher { get; set; }

    /// <summary>Another adult to ring when the teacher is not reached; never a child, and shown to adults alone.</summary>
    public string? BackupName { get; set; }

    public string? BackupPhone { get; set; }

    public int Version { get; set; }
}
