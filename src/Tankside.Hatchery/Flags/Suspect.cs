namespace Tankside.Hatchery.Flags;

/// <summary>
/// What may be behind water that is too warm, too cold, or still. The order is kept with stored flags: new ones go to the end.
/// </summary>
public enum Suspect
{
    /// <summary>The chiller hums or is silent, and does not cool: compressor, gas, fuse.</summary>
    ChillerDead,

    /// <summary>The coil is cased in ice: first colder, then warmer.</summary>
    CoilIced,

    /// <summary>A choked grille, a warm room, sun on the glass.</summary>
    RoomOrSun,

    /// <summary>The set point is wrong, or in the wrong unit or mode.</summary>
    SetPoint,

    /// <summary>The thermostat's probe is out of the water or in a still corner.</summary>
    Probe,

    /// <summary>A kinked or clogged hose: the chiller cools what does not reach the tank.</summary>
    BlockedFlow,

    /// <summary>This tank's plug, strip or breaker.</summary>
    PlugOrBreaker,

    /// <summary>The whole room or street is dark.</summary>
    PowerCut,

    PumpStopped,

    AirStopped,

    Thermometer,

    /// <summary>The water put in was warmer or colder than the tank.</summary>
    WaterChange,

    /// <summary>The chiller rests, the water is well.</summary>
    NothingWrong,
}

/// <summary>Questions with yes or no for an answer. A class's daily look answers some of them; the others are for the telephone.</summary>
public enum NextQuestion
{
    ChillerRunning,
    WaterMoving,
    Bubbles,
    IceOnCoil,
    LevelRight,

    /// <summary>Are the lights on in the room?</summary>
    LightsOn,

    /// <summary>Is the chiller's display lit?</summary>
    DisplayLit,

    /// <summary>Does the chiller's display show about what the thermometer in the tank shows?</summary>
    DisplayAgrees,

    /// <summary>Does the set screen say what was agreed?</summary>
    SetAsAgreed,

    /// <summary>Is the probe under water, in the current?</summary>
    ProbeInPlace,

    /// <summary>In ice and water for five minutes: does the thermometer show freezing?</summary>
    ThermometerRight,

    /// <summary>Sun on the glass, a heater near, a hot room, or a grille that cannot breathe?</summary>
    HeatNear,

    /// <summary>Was all water that was put in lately at the tank's temperature?</summary>
    RefillFitted,
}
