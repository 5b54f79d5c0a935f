namespace Tankside.Portal.Readings.Sheets;

/// <summary>What a column of a sheet can say.</summary>
public enum ColumnMeaning
{
    /// <summary>Not taken; the page says so.</summary>
    LeftOut,

    Tank,

    /// <summary>The day, or the day and the time of day in one cell.</summary>
    Date,
    Time,
    Water,

    /// <summary>The scale of the water temperature, in a cell of its own.</summary>
    Unit,
    Room,
    Moving,
    Bubbles,
    LevelOk,
    Clear,

    /// <summary>Dead, but the heading does not say whether eggs, alevins or fry; somebody has to.</summary>
    Dead,
    DeadEggs,
    DeadAlevins,
    DeadFry,
    Hatched,
    Swimming,
    Fed,
    Fungus,
    Gasping,
    ChillerRunning,
    IceOnCoil,
    Ph,
    Ammonia,
    Nitrite,
    Oxygen,
    Chlorine,
    WaterChanged,
    Note,
}

/// <summary>The meanings as the page names them.</summary>
public static class MeaningWords
{
    public static string Word(this ColumnMeaning meaning) => meaning switch
    {
        ColumnMeaning.LeftOut => "not taken",
        ColumnMeaning.Tank => "tank",
        ColumnMeaning.Date => "date, or date and time",
        ColumnMeaning.Time => "time of day",
        ColumnMeaning.Water => "water temperature",
        ColumnMeaning.Unit => "scale of the water temperature",
        ColumnMeaning.Room => "room temperature",
        ColumnMeaning.Moving => "water moving?",
        ColumnMeaning.Bubbles => "bubbles?",
        ColumnMeaning.LevelOk => "level right?",
        ColumnMeaning.Clear => "water clear?",
        ColumnMeaning.Dead => "dead: eggs, alevins or fry?",
        ColumnMeaning.DeadEggs => "dead eggs",
        ColumnMeaning.DeadAlevins => "dead alevins",
        ColumnMeaning.DeadFry => "dead fry",
        ColumnMeaning.Hatched => "hatched (none to all)",
        ColumnMeaning.Swimming => "swimming (none to all)",
        ColumnMeaning.Fed => "fed?",
        ColumnMeaning.Fungus => "fungus?",
        ColumnMeaning.Gasping => "gasping?",
        ColumnMeaning.ChillerRunning => "chiller running?",
        ColumnMeaning.IceOnCoil => "ice on the coil?",
        ColumnMeaning.Ph => "pH",
        ColumnMeaning.Ammonia => "ammonia, mg/L as N",
        ColumnMeaning.Nitrite => "nitrite, mg/L as N",
        ColumnMeaning.Oxygen => "oxygen, mg/L",
        ColumnMeaning.Chlorine => "chlorine, mg/L",
        ColumnMeaning.WaterChanged => "water changed, %",
        ColumnMeaning.Note => "note",
    };
}
