using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Eggs;

/// <summary>Eggs spawned and kept together: same source, same dates. Patterns over tanks are looked for along it.</summary>
public sealed class EggLot
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Guid SeasonId { get; init; }

    public required string Code { get; set; }

    public Species Species { get; set; }

    public string? Strain { get; set; }

    public string? Ploidy { get; set; }

    public string? Source { get; set; }

    /// <summary>First day of spawning.</summary>
    public DateOnly FertilisedFrom { get; set; }

    /// <summary>Last day of spawning; the same as the first when it was one day.</summary>
    public DateOnly FertilisedTo { get; set; }

    /// <summary>Mean water temperature at the hatchery until delivery, °C.</summary>
    public double HatcheryMeanC { get; set; }

    /// <summary>What its development before delivery is reckoned from.</summary>
    public StartKnownBy KnownBy { get; set; }

    /// <summary>As <see cref="DailyText"/>; null unless known by daily temperatures.</summary>
    public string? DailyC { get; set; }

    /// <summary>Thermal units above 0 °C from fertilisation to the start of <see cref="UnitsOn"/>.</summary>
    public double? UnitsC { get; set; }

    public DateOnly? UnitsOn { get; set; }

    /// <summary>The units as they were handed over, with unit and start.</summary>
    public string? UnitsTyped { get; set; }

    public DateOnly? EyedOn { get; set; }

    /// <summary>When the eyed eggs were shocked, so that the dead turn white.</summary>
    public DateOnly? ShockedOn { get; set; }

    /// <summary>When the dead were picked after it.</summary>
    public DateOnly? PickedOn { get; set; }

    /// <summary>Number or name of the fish health certificate.</summary>
    public string? HealthCertificate { get; set; }

    /// <summary>What the eggs were disinfected with and when, as handed over.</summary>
    public string? Disinfection { get; set; }

    public string? Note { get; set; }

    public int Version { get; set; }
}

/// <summary>Eggs promised to one tank out of one lot.</summary>
public sealed class Allotment
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public Guid LotId { get; init; }

    public int Eggs { get; set; }

    /// <summary>The day they are to be delivered; null while no day is set.</summary>
    public DateOnly? DeliveryOn { get; set; }

    public int Version { get; set; }
}

/// <summary>The signed hand-over of eggs at the tank: legal custody begins here.</summary>
public sealed class Receipt
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public Guid LotId { get; init; }

    public DateTime At { get; init; }

    /// <summary>The delivery run that brought them.</summary>
    public string? Run { get; init; }

    public int Eggs { get; init; }

    public int DeadOnArrival { get; init; }

    public CountMethod CountedBy { get; init; }

    public double? BoxC { get; init; }

    public double? TankC { get; init; }

    /// <summary>The stop of the delivery run whose pack this was.</summary>
    public Guid? StopId { get; init; }

    /// <summary>Minutes in which box and tank were brought together.</summary>
    public int? TemperedMinutes { get; init; }

    /// <summary>The adult who took the eggs over.</summary>
    public string? ReceivedBy { get; init; }

    public string? Note { get; init; }
}

/// <summary>
/// How a number of eggs or fish was arrived at. Taking found dead from the start is not a count and has no place here.
/// </summary>
public enum CountMethod
{
    Hand,
    Photo,
    Weight,
    Volume,
    Estimate,
}
