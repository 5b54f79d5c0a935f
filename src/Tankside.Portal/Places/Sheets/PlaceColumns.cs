using System.Text.Json;
using System.Text.Json.Serialization;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What the page asks before it offers to store anything.</summary>
public enum PlaceQuestion
{
    MonthOrDayFirst,
    ColumnMissing,
    OneMeaningTwice,
}

/// <summary>How a sheet of places is read: the guess, until somebody says otherwise. Kept with the import as JSON.</summary>
public sealed record PlaceColumns
{
    private static readonly JsonSerializerOptions Json = new() { Converters = { new JsonStringEnumConverter() }, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>What was taken for granted in reading the file, for the page.</summary>
    public string HowRead { get; init; } = "";

    public IReadOnlyList<string> Titles { get; init; } = [];

    /// <summary>The key of a field for each column, from the left; empty for one that is not taken.</summary>
    public IReadOnlyList<string> Meanings { get; init; } = [];

    /// <summary>Null when the dates can be read both ways and nobody said which.</summary>
    public DateOrder? Order { get; init; }

    /// <summary>The rows are events of a calendar file: each is ticked by itself.</summary>
    public bool IsCalendar { get; init; }

    /// <summary>What somebody has to say before anything can be stored; empty when all is plain.</summary>
    public IReadOnlyList<PlaceQuestion> QuestionsFor(IPlaceSheet kind) =>
    [
        .. Ask(MissingFor(kind).Any(), PlaceQuestion.ColumnMissing),
        .. Ask(Order is null, PlaceQuestion.MonthOrDayFirst),
        .. Ask(Meanings.Where(m => m.Length > 0).GroupBy(m => m).Any(g => g.Count() > 1), PlaceQuestion.OneMeaningTwice),
    ];

    public IEnumerable<SheetField> MissingFor(IPlaceSheet kind) => kind.Keys.Where(f => !Meanings.Contains(f.Key));

    public string ToJson() => JsonSerializer.Serialize(this, Json);

    public static PlaceColumns From(string json) => JsonSerializer.Deserialize<PlaceColumns>(json, Json)!;

    private static IEnumerable<PlaceQuestion> Ask(bool open, PlaceQuestion question) => open ? [question] : [];
}
