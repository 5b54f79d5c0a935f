using System.Text.Json;
using System.Text.Json.Serialization;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>How a sheet is to be read: the guess, until somebody says otherwise. Kept with the import as JSON.</summary>
public sealed record SheetColumns
{
    private static readonly JsonSerializerOptions Json = new()
    {
        Converters = { new JsonStringEnumConverter() },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>Which of a workbook's sheets.</summary>
    public int? Leaf { get; init; }

    /// <summary>Number of the last heading row; 0 when there is none.</summary>
    public int HeaderRow { get; init; }

    /// <summary>A meaning for each column, from the left.</summary>
    public IReadOnlyList<ColumnMeaning> Meanings { get; init; } = [];

    /// <summary>The scale of water temperatures that name none; null for the scale of each tank's own thermometer.</summary>
    public TemperatureUnit? WaterUnit { get; init; }

    public TemperatureUnit? RoomUnit { get; init; }

    /// <summary>Null when the dates of the sheet can be read both ways and nobody said which.</summary>
    public DateOrder? DateOrder { get; init; }

    /// <summary>The time of rows that name a day only.</summary>
    public TimeOnly Hour { get; init; } = new(8, 0);

    /// <summary>How far from UTC the times of the sheet are, as its heading says; null for the programme's own clock.</summary>
    public TimeSpan? Offset { get; init; }

    /// <summary>Code of the tank that the whole sheet is of, when no column names tanks.</summary>
    public string? Tank { get; init; }

    public bool Has(ColumnMeaning meaning) => Meanings.Contains(meaning);

    /// <summary>Column of a meaning; -1 when there is none.</summary>
    public int ColumnOf(ColumnMeaning meaning)
    {
        for (var column = 0; column < Meanings.Count; column++)
        {
            if (Meanings[column] == meaning)
            {
                return column;
            }
        }

        return -1;
    }

    /// <summary>What somebody has to say before anything can be stored; empty when all is plain.</summary>
    public IReadOnlyList<ColumnQuestion> Questions =>
    [
        .. Ask(!Has(ColumnMeaning.Date), ColumnQuestion.WhichIsTheDate),
        .. Ask(Has(ColumnMeaning.Date) && DateOrder is null, ColumnQuestion.MonthOrDayFirst),
        .. Ask(!Has(ColumnMeaning.Tank) && Tank is null, ColumnQuestion.WhichTank),
        .. Ask(Has(ColumnMeaning.Dead), ColumnQuestion.DeadOfWhatStage),
        .. Ask(Meanings.All(m => m is ColumnMeaning.LeftOut or ColumnMeaning.Tank or ColumnMeaning.Date or ColumnMeaning.Time or ColumnMeaning.Unit or ColumnMeaning.Dead), ColumnQuestion.WhatWasSeen),
        .. Ask(Meanings.Where(m => m != ColumnMeaning.LeftOut).GroupBy(m => m).Any(g => g.Count() > 1), ColumnQuestion.OneMeaningTwice),
    ];

    public string ToJson() => JsonSerializer.Serialize(this, Json);

    public static SheetColumns From(string json) => JsonSerializer.Deserialize<SheetColumns>(json, Json)!;

    private static IEnumerable<ColumnQuestion> Ask(bool open, ColumnQuestion question) => open ? [question] : [];
}

/// <summary>What the page asks before it offers to store anything.</summary>
public enum ColumnQuestion
{
    WhichIsTheDate,
    MonthOrDayFirst,
    WhichTank,
    DeadOfWhatStage,
    WhatWasSeen,
    OneMeaningTwice,
}
