namespace Tankside.Hatchery.Places;

/// <summary>What a sheet of a programme's places holds.</summary>
public enum PlaceSheet
{
    Schools,
    Rooms,
    People,
    Kit,
    Closures,
}

/// <summary>Where the import of such a sheet stands.</summary>
public enum PlaceImportState
{
    /// <summary>It is looked at; nothing of it is stored yet.</summary>
    Previewed,
    Done,

    /// <summary>Taken back, as far as nothing depended on it.</summary>
    Undone,
}

/// <summary>A sheet of schools, rooms, people, kit or closures that somebody brought in, and what became of its rows.</summary>
public sealed class PlaceImport
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string FileName { get; init; }

    public PlaceSheet Holds { get; set; }

    public Guid SentBy { get; init; }

    public DateTime SentAt { get; init; }

    public PlaceImportState State { get; set; }

    /// <summary>How the sheet is read, as JSON; the guess until somebody changed it.</summary>
    public required string Columns { get; set; }

    public int Added { get; set; }

    public int Changed { get; set; }

    public int Unchanged { get; set; }

    public int Refused { get; set; }

    public DateTime? StoredAt { get; set; }

    public Guid? StoredBy { get; set; }

    public DateTime? UndoneAt { get; set; }

    public Guid? UndoneBy { get; set; }

    public int Version { get; set; }
}

/// <summary>The rows of a sheet that is looked at. They are kept no longer than until they are stored or thrown away.</summary>
public sealed class PlaceImportSheet
{
    public Guid ImportId { get; init; }

    public required byte[] Content { get; init; }
}

/// <summary>What an import adds or changes.</summary>
public enum PlaceThing
{
    School,
    Room,
    Tank,
    Invitation,
    Kit,
    Closure,
}

/// <summary>One thing that an import added or changed, with every field's value before and after, so that it can be taken back.</summary>
public sealed class PlaceImportLine
{
    public Guid ImportId { get; init; }

    /// <summary>From 1, in the order of the sheet.</summary>
    public int Number { get; init; }

    /// <summary>The row that a spreadsheet shows.</summary>
    public int Row { get; init; }

    public PlaceThing Thing { get; init; }

    public Guid ThingId { get; init; }

    public required string Name { get; init; }

    /// <summary>False for something that was there before and was changed.</summary>
    public bool Added { get; init; }

    /// <summary>The fields as JSON.</summary>
    public required string Fields { get; init; }

    /// <summary>Why it stayed, wholly or in part, when the import was taken back.</summary>
    public string? Stayed { get; set; }
}
