using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>The cells of one row by their meaning, and what is unclear about them.</summary>
internal sealed class RowCells(SheetRow row, SheetColumns columns, IReadOnlyList<string> titles, List<string> why, Say say)
{
    public string this[ColumnMeaning meaning] => columns.ColumnOf(meaning) is >= 0 and var column ? row[column] : "";

    public string TitleOf(ColumnMeaning meaning) =>
        columns.ColumnOf(meaning) is >= 0 and var column && column < titles.Count && titles[column].Length > 0 ? titles[column] : say[meaning.Word()];

    /// <summary>Always null, so that it can stand where the value would.</summary>
    public NamedTank? Unclear(string reason)
    {
        why.Add(reason);
        return null;
    }

    public Observation Observation(TemperatureUnit roomUnit) => new()
    {
        RoomC = Room(roomUnit),
        Moving = YesNo(ColumnMeaning.Moving),
        Bubbles = YesNo(ColumnMeaning.Bubbles),
        LevelOk = YesNo(ColumnMeaning.LevelOk),
        Clear = YesNo(ColumnMeaning.Clear),
        ChillerRunning = YesNo(ColumnMeaning.ChillerRunning),
        IceOnCoil = YesNo(ColumnMeaning.IceOnCoil),
        Fed = YesNo(ColumnMeaning.Fed),
        Fungus = YesNo(ColumnMeaning.Fungus),
        Gasping = YesNo(ColumnMeaning.Gasping),
        DeadEggs = Count(ColumnMeaning.DeadEggs),
        DeadAlevins = Count(ColumnMeaning.DeadAlevins),
        DeadFry = Count(ColumnMeaning.DeadFry),
        Hatched = Read(ColumnMeaning.Hatched, ShareWords.ShareOf, say["none, some, half, most or all"]),
        Swimming = Read(ColumnMeaning.Swimming, ShareWords.ShareOf, say["none, some, half, most or all"]),
        Ph = Number(ColumnMeaning.Ph),
        AmmoniaTotalMgL = Number(ColumnMeaning.Ammonia),
        NitriteMgL = Number(ColumnMeaning.Nitrite),
        OxygenMgL = Number(ColumnMeaning.Oxygen),
        ChlorineMgL = Number(ColumnMeaning.Chlorine),
        WaterChangedPercent = Number(ColumnMeaning.WaterChanged),
        Note = this[ColumnMeaning.Note] is { Length: > 0 } note ? note : null,
    };

    private double? Room(TemperatureUnit unit)
    {
        var typed = this[ColumnMeaning.Room];
        if (CellWords.SaysNothing(typed))
        {
            return null;
        }

        if (WaterTemperature.TryRead(typed, out var value, out var written) && double.IsFinite(value))
        {
            return Math.Round(WaterTemperature.ToC(value, written ?? unit), 2);
        }

        Complain(ColumnMeaning.Room, typed, say["a temperature, such as 70"]);
        return null;
    }

    private double? Number(ColumnMeaning meaning) => Read(meaning, CellWords.Number, say["a number"]);

    private int? Count(ColumnMeaning meaning) => Read(meaning, CellWords.Count, say["a whole number"]);

    private bool? YesNo(ColumnMeaning meaning) => Read(meaning, CellWords.YesNo, say["yes or no"]);

    private T? Read<T>(ColumnMeaning meaning, Func<string, T?> read, string expected)
        where T : struct
    {
        var cell = this[meaning];
        if (CellWords.SaysNothing(cell))
        {
            return null;
        }

        var value = read(cell);
        if (value is null)
        {
            Complain(meaning, cell, expected);
        }

        return value;
    }

    private void Complain(ColumnMeaning meaning, string cell, string expected) =>
        why.Add(say.Of("“{0}” under “{1}” is not {2}.", SheetTexts.Shortened(cell), TitleOf(meaning), expected));
}
