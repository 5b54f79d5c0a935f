namespace Tankside.Hatchery.Releases;

/// <summary>How a kept paper is stored.</summary>
public enum PaperKind
{
    Pdf,
    Picture,
}

/// <summary>A page or file of the paper that the agency gave for a permit, written anew by the server.</summary>
public sealed class PermitPaper
{
    public Guid Id { get; init; }

    public Guid PermitId { get; init; }

    /// <summary>UTC.</summary>
    public DateTime ReceivedAt { get; init; }

    public Guid SentBy { get; init; }

    public PaperKind Kind { get; init; }

    public string? Note { get; init; }

    public int Pages { get; init; }

    /// <summary>PDF or JPEG as the server wrote it; emptied when the paper is taken away.</summary>
    public required byte[] Content { get; set; }

    public DateTime? RemovedAt { get; set; }

    public Guid? RemovedBy { get; set; }
}
