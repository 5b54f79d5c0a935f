using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Tankside.Hatchery.People;

public enum ChangeKind
{
    Added,
    Changed,
    Removed,
}

/// <summary>
/// Who set what, when, and what it was before: a line of a programme's record of changes. Lines are only added.
/// </summary>
public sealed class Change
{
    public const int LongestFields = 100_000;

    public long Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public DateTime At { get; init; }

    /// <summary>The person who did it; null for the program itself.</summary>
    public Guid? By { get; init; }

    /// <summary>What kind of thing: the name of its class.</summary>
    public required string What { get; init; }

    /// <summary>Which one: its id, or the key of a setting.</summary>
    public required string Which { get; init; }

    /// <summary>What it was called then; never the name or address of a person.</summary>
    public required string Name { get; init; }

    /// <summary>The person it is about, so that their name is looked up where it is shown and not kept here.</summary>
    public Guid? About { get; init; }

    public ChangeKind Kind { get; init; }

    /// <summary>The fields as <see cref="ChangedField.Write"/> writes them.</summary>
    public required string Fields { get; init; }

    public IReadOnlyList<ChangedField> Read() => ChangedField.Read(Fields);
}

/// <summary>One field before and after.</summary>
/// <param name="Withheld">It changed, and its values are not kept: a telephone number, a secret.</param>
public sealed record ChangedField(
    string Field,
    string? Before,
    string? After,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)] bool Withheld = false)
{
    private static readonly JsonSerializerOptions AsIs = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(IEnumerable<ChangedField> fields) => JsonSerializer.Serialize(fields, AsIs);

    public static IReadOnlyList<ChangedField> Read(string text) => JsonSerializer.Deserialize<List<ChangedField>>(text, AsIs) ?? [];
}
