namespace Tankside.Hatchery.Flags;

/// <summary>How the water came to where it is; one of these at a time, the most telling first.</summary>
public enum WaterCourse
{
    Unknown,
    AtSetPoint,

    /// <summary>Above the set point; whether it rises is not known.</summary>
    Warm,

    /// <summary>Under the set point; how it came there is not known.</summary>
    Cool,

    /// <summary>Above the set point and rising.</summary>
    Rising,

    /// <summary>It was worse at the reading before.</summary>
    ComingBack,

    /// <summary>Under the set point after falling a little a day.</summary>
    SlowDrop,

    /// <summary>After a slow drop under the set point it rises.</summary>
    DropThenRise,

    /// <summary>Colder than a working chiller makes it.</summary>
    FarBelow,

    /// <summary>Down faster than a chiller cools.</summary>
    SuddenDrop,

    /// <summary>Steady at a wrong number.</summary>
    SteadyElsewhere,

    /// <summary>Steady at a wrong number since a day on which somebody cleaned.</summary>
    SteadySinceCleaning,

    /// <summary>Warm in the afternoon, cool in the morning, day after day.</summary>
    DayPeaks,

    /// <summary>The very same number again and again.</summary>
    NeverChanges,

    /// <summary>A jump at a water change.</summary>
    JumpAtChange,
}
