namespace Tankside.Hatchery.Readings;

/// <summary>What a photo shows. A person is never the subject.</summary>
public enum PhotoOf
{
    Tank,
    Kit,
}

/// <summary>A photo of a tank or its kit, drawn anew by the server so that nothing but the picture is left of what was sent.</summary>
public sealed class TankPhoto
{
    public Guid Id { get; init; }

    public Guid TankId { get; init; }

    public PhotoOf Shows { get; init; }

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
