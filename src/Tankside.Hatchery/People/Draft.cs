namespace Tankside.Hatchery.People;

/// <summary>Words that a person was typing when the connection went; kept until they are used or left.</summary>
public sealed class Draft
{
    public const int Longest = 4000;

    public Guid PersonId { get; init; }

    /// <summary>What it is for, e.g. "note FLAG".</summary>
    public required string Key { get; init; }

    public required string Text { get; set; }

    public DateTime At { get; set; }
}
