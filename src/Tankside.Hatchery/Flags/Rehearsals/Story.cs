using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>What is really going on in a made-up tank.</summary>
public enum Story
{
    Well,

    // Troubles in which minutes count.
    PumpOutBigFish,
    StillBasket,
    EverythingStopped,
    NoBubbles,

    // Troubles in which the day counts.
    RisingFast,
    ChillerOff,
    IcedCoil,
    HeldHot,
    SilentAfterBadWord,
    AlkalineAmmonia,
    DieOff,

    // Troubles that can wait behind the others.
    HeldWarm,
    SilentDays,
    SilentAfterBreak,
    AmmoniaWithoutPh,
    TooCold,
    LateHatch,

    // What looks loud and is harmless.
    FryAtFiftyFour,
    RestingChiller,
    AcidAmmonia,
    OddNumber,
    WorriedNote,
    FoamAfterHatch,
    SchoolClosed,
}

/// <summary>The catalogue that a morning's troubles and traps are drawn from.</summary>
public static class Stories
{
    private static readonly LifeStage[] Any = [LifeStage.Egg, LifeStage.Alevin, LifeStage.Fry];
    private static readonly LifeStage[] InBasket = [LifeStage.Egg, LifeStage.Alevin];
    private static readonly LifeStage[] Swimming = [LifeStage.Fry];

    public static IReadOnlyList<Story> MinutesCount { get; } =
        [Story.PumpOutBigFish, Story.StillBasket, Story.EverythingStopped, Story.NoBubbles];

    public static IReadOnlyList<Story> DayCounts { get; } =
    [
        Story.RisingFast, Story.ChillerOff, Story.IcedCoil, Story.HeldHot, Story.SilentAfterBadWord, Story.AlkalineAmmonia, Story.DieOff,
    ];

    public static IReadOnlyList<Story> CanWait { get; } =
        [Story.HeldWarm, Story.SilentDays, Story.AmmoniaWithoutPh, Story.TooCold, Story.LateHatch];

    public static IReadOnlyList<Story> Harmless { get; } =
        [Story.FryAtFiftyFour, Story.RestingChiller, Story.AcidAmmonia, Story.OddNumber, Story.WorriedNote, Story.FoamAfterHatch];

    /// <summary>Stories whose own readings are the word of today; a quiet one beside them would contradict it.</summary>
    public static bool TellsOfToday(Story story) => story is Story.PumpOutBigFish or Story.StillBasket or Story.EverythingStopped or Story.NoBubbles
        or Story.RisingFast or Story.ChillerOff or Story.IcedCoil or Story.AlkalineAmmonia or Story.AmmoniaWithoutPh or Story.AcidAmmonia
        or Story.DieOff or Story.RestingChiller;

    /// <summary>Stories that only today's reading shows.</summary>
    public static bool ShownByToday(Story story) => story is Story.FryAtFiftyFour or Story.FoamAfterHatch or Story.WorriedNote
        or Story.HeldWarm or Story.HeldHot or Story.TooCold;

    /// <summary>The flag that the rules must raise for it; null where they must raise none.</summary>
    public static FlagKind? KindOf(Story story) => story switch
    {
        Story.PumpOutBigFish or Story.StillBasket or Story.EverythingStopped or Story.NoBubbles => FlagKind.PumpFault,
        Story.RisingFast => FlagKind.WarmingFast,
        Story.ChillerOff => FlagKind.ChillerFault,
        Story.IcedCoil => FlagKind.IcedCoil,
        Story.HeldHot or Story.HeldWarm => FlagKind.Warm,
        Story.SilentAfterBadWord or Story.SilentDays or Story.SilentAfterBreak => FlagKind.Silent,
        Story.AlkalineAmmonia or Story.AmmoniaWithoutPh => FlagKind.Ammonia,
        Story.DieOff => FlagKind.DieOff,
        Story.TooCold => FlagKind.Cold,
        Story.LateHatch => FlagKind.LateHatch,
        Story.Well or Story.FryAtFiftyFour or Story.RestingChiller or Story.AcidAmmonia or Story.OddNumber or Story.WorriedNote
            or Story.FoamAfterHatch or Story.SchoolClosed => null,
    };

    /// <summary>The stages in which it can be told.</summary>
    public static IReadOnlyList<LifeStage> StagesOf(Story story) => story switch
    {
        Story.PumpOutBigFish or Story.NoBubbles or Story.HeldHot or Story.AlkalineAmmonia or Story.AmmoniaWithoutPh or Story.FryAtFiftyFour
            or Story.AcidAmmonia => Swimming,
        Story.StillBasket or Story.HeldWarm => InBasket,
        Story.LateHatch => [LifeStage.Egg],
        Story.FoamAfterHatch => [LifeStage.Alevin],
        Story.Well or Story.EverythingStopped or Story.RisingFast or Story.ChillerOff or Story.IcedCoil or Story.SilentAfterBadWord
            or Story.DieOff or Story.SilentDays or Story.SilentAfterBreak or Story.TooCold or Story.RestingChiller or Story.OddNumber
            or Story.WorriedNote or Story.SchoolClosed => Any,
    };
}
