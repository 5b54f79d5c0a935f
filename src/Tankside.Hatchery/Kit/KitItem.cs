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
    Logger,
}

public enum KitCondition
{
    Working,
    Faulty,
    InRepair,
    Retired,
}

/// <summary>
/// One piece of kit with a serial, as it stands now. It is in one place at most: in a tank, at a depot, or on the road with a person. How it
/// came there is told by its <see cref="KitAct"/>s.
/// </summary>
public sealed class KitItem
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public KitKind Kind { get; init; }

    /// <summary>Maker's serial, or the label's; unique in a programme.</summary>
    public required string Serial { get; set; }

    public required string Make { get; set; }

    /// <summary>Which delivery of the make it came with, so that a bad one can be seen: "Fenwick 2019-B".</summary>
    public string? Batch { get; set; }

    /// <summary>Whose it is: that decides who pays for a repair.</summary>
    public string? Owner { get; set; }

    public DateOnly? BoughtOn { get; set; }

    public DateOnly? WarrantyUntil { get; set; }

    public KitCondition Condition { get; set; }

    /// <summary>It came out of a tank and was not cleaned since.</summary>
    public bool ToClean { get; set; }

    /// <summary>The tank it runs at.</summary>
    public Guid? InTankId { get; set; }

    /// <summary>The depot it lies at.</summary>
    public Guid? DepotId { get; set; }

    /// <summary>Who carries it.</summary>
    public Guid? WithPersonId { get; set; }

    /// <summary>The most water it can serve, litres; null when it fits any tank.</summary>
    public double? MostLitres { get; set; }

    /// <summary>The tank it is promised to; a spare is promised once.</summary>
    public Guid? ReservedForTankId { get; set; }

    public Guid? ReservedBy { get; set; }

    public DateTime? ReservedAt { get; set; }

    /// <summary>Acts in its history so far.</summary>
    public int Acts { get; set; }

    public int Version { get; set; }

    /// <summary>It works and stands ready: in no tank and on nobody's way to one.</summary>
    public bool IsSpare => Condition == KitCondition.Working && InTankId is null && WithPersonId is null;

    public KitSpot Spot =>
        Condition == KitCondition.Retired ? KitSpot.Gone
        : Condition == KitCondition.InRepair ? KitSpot.AtTheRepairer
        : InTankId is { } tank ? new KitSpot(KitPlace.Tank, tank)
        : DepotId is { } depot ? new KitSpot(KitPlace.Depot, depot)
        : WithPersonId is { } person ? new KitSpot(KitPlace.Person, person)
        : KitSpot.Unknown;

    public bool Fits(double litres) => MostLitres is not { } most || most >= litres;
}
