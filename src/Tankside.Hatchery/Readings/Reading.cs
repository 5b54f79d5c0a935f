using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Readings;

/// <summary>The door a reading came in by. A class is a guest; the others are known.</summary>
public enum ReadingSource
{
    Class,
    Person,
    Logger,
    PhoneCall,

    /// <summary>A row of a sheet that was imported.</summary>
    Sheet,
}

/// <summary>Whether a reading counts.</summary>
public enum ReadingState
{
    /// <summary>It counts.</summary>
    Accepted,

    /// <summary>A value in it is doubtful. It is kept, unjudged, until a person answers.</summary>
    Asked,

    /// <summary>A person answered that it was a slip; the right reading, if there is one, corrects it.</summary>
    Withdrawn,
}

/// <summary>
/// One reading as it came. What was seen is never overwritten: a correction is a later reading that names this one.
/// </summary>
public sealed class Reading
{
    public long Id { get; init; }

    /// <summary>The sender's own id; unique within a tank, so that a retry is not a second reading.</summary>
    public Guid SenderId { get; init; }

    public Guid TankId { get; init; }

    /// <summary>When it was read, UTC.</summary>
    public DateTime At { get; init; }

    /// <summary>When it reached us, UTC.</summary>
    public DateTime ReceivedAt { get; init; }

    public ReadingSource Source { get; init; }

    /// <summary>The signed-in person or API key, when there is one.</summary>
    public Guid? EnteredBy { get; init; }

    public ReadingState State { get; set; }

    public required Observation Seen { get; init; }

    /// <summary>The temperature exactly as typed.</summary>
    public string? TypedWater { get; init; }

    public TemperatureUnit? TypedUnit { get; init; }

    /// <summary>Which field was doubtful, in the API's name for it.</summary>
    public string? DoubtfulField { get; init; }

    public Doubt? Doubt { get; init; }

    /// <summary>Who said that a doubtful value is right: "class", or a person's id.</summary>
    public string? ConfirmedBy { get; init; }

    /// <summary>Sender's id of the reading that this one corrects, in the same tank.</summary>
    public Guid? Corrects { get; init; }

    /// <summary>Sender's id of the reading that corrected this one; set once, by that reading's arrival.</summary>
    public Guid? CorrectedBy { get; set; }

    /// <summary>The import that brought it, so that a whole sheet can be taken back.</summary>
    public Guid? ImportId { get; init; }

    /// <summary>Hash of the parsed content, so that a repeat can be told from a different reading under the same id.</summary>
    public required string ContentHash { get; init; }

    public bool Counts => State == ReadingState.Accepted && CorrectedBy is null;
}
