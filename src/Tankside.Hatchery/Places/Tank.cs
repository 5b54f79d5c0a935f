using Tankside.Hatchery.People;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Places;

/// <summary>A chilled aquarium in a classroom.</summary>
public sealed class Tank
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public Guid ClassroomId { get; init; }

    /// <summary>The code on the label, unique in an installation, e.g. A007.</summary>
    public required string Code { get; init; }

    /// <summary>Water in litres.</summary>
    public double Litres { get; set; }

    public Jacket Jacket { get; set; }

    /// <summary>What the chiller aims for, °C.</summary>
    public double SetPointC { get; set; }

    /// <summary>Usual room temperature, °C; a reading's own room temperature wins over it.</summary>
    public double RoomC { get; set; } = 21;

    /// <summary>The scale this class's thermometer is read on.</summary>
    public TemperatureUnit UsualUnit { get; set; } = TemperatureUnit.F;

    /// <summary>Make and batch of the chiller, so that a bad batch can be seen.</summary>
    public string? ChillerBatch { get; set; }

    /// <summary>Batch of the water test kit.</summary>
    public string? TestKitBatch { get; set; }

    public DateTime? ClosedAt { get; set; }

    public int Version { get; set; }
}

/// <summary>
/// The secret on a tank's label. Whoever holds it may add readings and reports of trouble for that tank and see its class page,
/// nothing else. It is kept readable because labels are printed again; revoking it replaces it.
/// </summary>
public sealed class RoomCode
{
    public Guid Id { get; init; }

    public Guid TankId { get; init; }

    public required string Code { get; init; }

    public DateTime IssuedAt { get; init; }

    /// <summary>When a file to print was last made with it; null for a label that nobody can have stuck on yet.</summary>
    public DateTime? PrintedAt { get; set; }

    public DateTime? RevokedAt { get; set; }
}
