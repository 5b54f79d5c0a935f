namespace Tankside.Hatchery.Kit;

public enum KitKind
{
    Chiller,
    Pump,
    AirPump,
    BatteryAir,
    Filter,
    Thermometer,
    Tank,
}

public enum KitCondition
{
    Working,
    Faulty,
    InRepair,
    Retired,
}

/// <summary>One piece of kit with a serial. A spare is one that works and stands in no tank.</summary>
public sealed class KitItem
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public KitKind Kind { get; init; }

    /// <summary>Maker's serial, or the label's; unique in a programme.</summary>
    public required string Serial { get; init; }

    public required string Make { get; set; }

    public KitCondition Condition { get; set; }

    /// <summary>The tank it runs at; null when it lies ready.</summary>
    public Guid? InTankId { get; set; }

    /// <summary>The school it lies at; null when somebody else holds it.</summary>
    public Guid? SchoolId { get; set; }

    /// <summary>Where it lies and who hands it out, in words: "stock room, ask at the office".</summary>
    public string? Place { get; set; }

    public string? Holder { get; set; }

    public string? HolderPhone { get; set; }

    /// <summary>When it can be fetched, in words.</summary>
    public string? Hours { get; set; }

    public double? Latitude { get; set; }

    public double? Longitude { get; set; }

    /// <summary>The most water it can serve, litres; null when it fits any tank.</summary>
    public double? MostLitres { get; set; }

    /// <summary>The tank it is promised to; a spare is promised once.</summary>
    public Guid? ReservedForTankId { get; set; }

    public Guid? ReservedBy { get; set; }

    public DateTime? ReservedAt { get; set; }

    public int Version { get; set; }

    public bool IsSpare => Condition == KitCondition.Working && InTankId is null;
}
