using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>What became of rows, in words.</summary>
public static class FateWords
{
    public static string Word(RowFate fate) => fate switch
    {
        RowFate.Accepted => "accepted",
        RowFate.Asked => "asked",
        RowFate.Duplicate => "already there",
        RowFate.Refused => "refused",
        RowFate.Blank => "blank",
    };

    /// <summary>The intake's answer to one row.</summary>
    public static (RowFate Fate, string Why) Of(IntakeOutcome outcome, IncomingReading sent, IReadOnlyList<string> titles, SheetColumns columns, Say say) => outcome switch
    {
        IntakeOutcome.Accepted => (RowFate.Accepted, ""),
        IntakeOutcome.Asked a => (RowFate.Asked, DoubtWords.Question(a.Doubt, a.Typed, sent.Water!.Unit, a.Understood, a.UnderstoodUnit, say)),
        IntakeOutcome.Duplicate => (RowFate.Duplicate, say["The same reading was stored before."]),
        IntakeOutcome.Rejected(var errors) => (RowFate.Refused, string.Join(" ", errors.SelectMany(e => e.Value.Select(v => Named(e.Key, v, titles, columns, say))))),
        _ => throw new InvalidOperationException("an outcome without a word"),
    };

    public static string AskedBefore(Doubt doubt) => doubt switch
    {
        Doubt.OtherScale => "The number fits the other scale better. Somebody has to say what was meant.",
        Doubt.BetweenScales => "The number lies between the scales. Somebody has to say what the thermometer said.",
        Doubt.SlippedDigit => "A digit or a point looks slipped. Somebody has to say what was meant.",
        Doubt.ImpossibleJump => "A bigger change than a tank can make since its last reading. Somebody has to say whether it is right.",
        Doubt.Unusual => "The number does not go with the other answers. Somebody has to say whether it is right.",
    };

    /// <summary>The intake names a field as the API does; a sheet has headings.</summary>
    private static string Named(string field, string message, IReadOnlyList<string> titles, SheetColumns columns, Say say)
    {
        var meaning = field switch
        {
            "roomC" => ColumnMeaning.Room,
            "deadEggs" => ColumnMeaning.DeadEggs,
            "deadAlevins" => ColumnMeaning.DeadAlevins,
            "deadFry" => ColumnMeaning.DeadFry,
            "ph" => ColumnMeaning.Ph,
            "ammoniaTotalMgL" => ColumnMeaning.Ammonia,
            "nitriteMgL" => ColumnMeaning.Nitrite,
            "oxygenMgL" => ColumnMeaning.Oxygen,
            "chlorineMgL" => ColumnMeaning.Chlorine,
            "waterChangedPercent" => ColumnMeaning.WaterChanged,
            "note" => ColumnMeaning.Note,
            _ => ColumnMeaning.LeftOut,
        };
        if (meaning == ColumnMeaning.LeftOut)
        {
            return say.Told(message);
        }

        var column = columns.ColumnOf(meaning);
        var title = column >= 0 && column < titles.Count && titles[column].Length > 0 ? titles[column] : say[meaning.Word()];
        return $"“{title}”: {say.Told(message)}";
    }
}
