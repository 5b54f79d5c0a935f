using System.Text.Json.Serialization;

namespace Tankside.Hatchery.Readings;

/// <summary>How many have hatched, or swim. Nobody can count alevins, so nobody is asked for a number.</summary>
public enum Share
{
    None,
    Some,
    Half,
    Most,
    All,
}

/// <summary>
/// What was seen at a tank at one time. Every field may be absent: absent is "not looked at", which is not the same as
/// "no" or 0. Temperatures are °C, concentrations mg/L; ammonia and nitrite are as nitrogen.
/// </summary>
public sealed record Observation
{
    public double? WaterC { get; init; }

    public double? RoomC { get; init; }

    /// <summary>Is the water moving?</summary>
    public bool? Moving { get; init; }

    /// <summary>Are there bubbles?</summary>
    public bool? Bubbles { get; init; }

    /// <summary>Is the water level right?</summary>
    public bool? LevelOk { get; init; }

    /// <summary>Is the water clear?</summary>
    public bool? Clear { get; init; }

    public bool? ChillerRunning { get; init; }

    public bool? IceOnCoil { get; init; }

    /// <summary>Dead eggs removed since the previous count in this tank; 0 is a count, absent is not.</summary>
    public int? DeadEggs { get; init; }

    public int? DeadAlevins { get; init; }

    public int? DeadFry { get; init; }

    public Share? Hatched { get; init; }

    public Share? Swimming { get; init; }

    public bool? Fed { get; init; }

    public bool? Fungus { get; init; }

    public bool? Gasping { get; init; }

    public double? Ph { get; init; }

    public double? AmmoniaTotalMgL { get; init; }

    public double? NitriteMgL { get; init; }

    public double? OxygenMgL { get; init; }

    public double? ChlorineMgL { get; init; }

    public double? WaterChangedPercent { get; init; }

    /// <summary>Somebody at the tank says that it feels warm, without a number.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public bool? FeelsWarm { get; init; }

    /// <summary>Somebody at the tank sees water on the floor.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public bool? WaterOnFloor { get; init; }

    public string? Note { get; init; }

    /// <summary>Says at most what is measured without anybody there: water, room, whether the chiller runs. Asked of every reading that is looked back on.</summary>
    [JsonIgnore]
    public bool IsOfLogger =>
        Moving is null && Bubbles is null && LevelOk is null && Clear is null && IceOnCoil is null && DeadEggs is null && DeadAlevins is null
        && DeadFry is null && Hatched is null && Swimming is null && Fed is null && Fungus is null && Gasping is null && Ph is null
        && AmmoniaTotalMgL is null && NitriteMgL is null && OxygenMgL is null && ChlorineMgL is null && WaterChangedPercent is null
        && FeelsWarm is null && WaterOnFloor is null && Note is null;

    /// <summary>True when nothing at all was seen.</summary>
    public bool IsEmpty => this == new Observation();
}
