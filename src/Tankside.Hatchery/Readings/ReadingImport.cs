namespace Tankside.Hatchery.Readings;

/// <summary>Where the import of a sheet stands.</summary>
public enum ImportState
{
    /// <summary>The sheet was sent and is looked at; no reading is stored yet.</summary>
    Previewed,

    /// <summary>Its rows are being stored.</summary>
    Running,

    Done,

    /// <summary>Taken back: its readings count no more.</summary>
    Undone,
}

/// <summary>A sheet of readings that somebody brought in, and what became of its rows.</summary>
public sealed class ReadingImport
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string FileName { get; init; }

    /// <summary>Person who sent the sheet.</summary>
    public Guid SentBy { get; init; }

    public DateTime SentAt { get; init; }

    public ImportState State { get; set; }

    /// <summary>Which column means what, as JSON; the guess until somebody changed it.</summary>
    public required string Columns { get; set; }

    /// <summary>Rows below the header; what follows adds up to it once the import is done.</summary>
    public int Rows { get; set; }

    /// <summary>Rows handled so far, for the progress on the page.</summary>
    public int Handled { get; set; }

    public int Accepted { get; set; }

    public int Asked { get; set; }

    /// <summary>Rows that were there before.</summary>
    public int Duplicates { get; set; }

    public int Refused { get; set; }

    /// <summary>Rows with nothing in them.</summary>
    public int Blank { get; set; }

    public DateTime? FinishedAt { get; set; }

    public DateTime? UndoneAt { get; set; }

    public Guid? UndoneBy { get; set; }

    public int Version { get; set; }
}

/// <summary>The sheet itself, byte for byte as it was sent.</summary>
public sealed class ImportedSheet
{
    public Guid ImportId { get; init; }

    public required byte[] Content { get; init; }
}
