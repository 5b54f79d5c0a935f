namespace Tankside.Hatchery.Kit;

/// <summary>A photo of a piece of kit, drawn anew by the server so that nothing but the picture is left of what was sent.</summary>
public sealed class KitPhoto
{
    public Guid Id { get; init; }

    public Guid ItemId { get; init; }

    /// <summary>When it reached us, UTC. When it was taken is not kept.</summary>
    public DateTime ReceivedAt { get; init; }

    /// <summary>The adult who sent it.</summary>
    public Guid SentBy { get; init; }

    public string? Note { get; init; }

    /// <summary>Pixels.</summary>
    public int Width { get; init; }

    /// <summary>Pixels.</summary>
    public int Height { get; init; }

    /// <summary>JPEG as the server encoded it; emptied when the photo is taken down.</summary>
    public required byte[] Content { get; set; }

    public DateTime? RemovedAt { get; set; }

    public Guid? RemovedBy { get; set; }
}
