namespace Tankside.Storage;

/// <summary>
/// Another number whenever a programme's own ways change: its closed days, its own numbers and words, its marked areas. Triggers of the
/// database write it in the transaction of the change, by whatever way that came; what was read under one stamp holds as long as it stands.
/// </summary>
public sealed class WaysStamp
{
    public Guid ProgrammeId { get; init; }

    public long Stamp { get; init; }
}
