namespace Tankside.Hatchery.Eggs;

/// <summary>What an adult looked at before eggs may come to a tank. Each look is kept; the newest counts.</summary>
public sealed class ReadyCheck
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public DateTime At { get; init; }

    public Guid By { get; init; }

    /// <summary>The chiller's coil or hoses are in, and water goes through.</summary>
    public bool CoilDown { get; init; }

    /// <summary>The chiller's probe hangs in the water.</summary>
    public bool ProbeInWater { get; init; }

    /// <summary>No tube is kinked; bubbles or flow are seen.</summary>
    public bool TubesFree { get; init; }

    /// <summary>The filter plate is covered with gravel, so that no egg or alevin gets under it.</summary>
    public bool FilterCovered { get; init; }

    public bool GravelClean { get; init; }

    /// <summary>The water has stood or was dechlorinated.</summary>
    public bool WaterSafe { get; init; }

    public string? Note { get; init; }
}

/// <summary>Somebody's signature that eggs may come although the gate says no.</summary>
public sealed class ReadyOverride
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public DateTime At { get; init; }

    public Guid By { get; init; }

    /// <summary>The name as they signed it.</summary>
    public required string SignedAs { get; init; }

    public required string Reason { get; init; }

    public DateTime? WithdrawnAt { get; set; }

    public int Version { get; set; }
}
