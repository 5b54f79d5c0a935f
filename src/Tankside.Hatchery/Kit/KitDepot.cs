namespace Tankside.Hatchery.Kit;

/// <summary>Where spares lie: a stock room, a garage, a cupboard at a school, with somebody who hands them out.</summary>
public sealed class KitDepot
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    /// <summary>As drivers call it.</summary>
    public required string Name { get; set; }

    /// <summary>The school it is in: its position counts where the depot has none of its own.</summary>
    public Guid? SchoolId { get; set; }

    /// <summary>Who has the key: a person of the programme.</summary>
    public Guid? HolderId { get; set; }

    /// <summary>Who hands it out where that is nobody of the programme: "ask at the office".</summary>
    public string? Holder { get; set; }

    public string? Phone { get; set; }

    /// <summary>When it can be fetched, in words.</summary>
    public string? Hours { get; set; }

    public double? Latitude { get; set; }

    public double? Longitude { get; set; }

    /// <summary>Nothing is brought here any more.</summary>
    public DateTime? ClosedAt { get; set; }

    public int Version { get; set; }
}
