namespace Tankside.Science.Eggs;

/// <summary>
/// The salmon, trout and charr whose egg development is modelled. Odd- and even-year pink salmon develop differently.
/// </summary>
public enum Species
{
    /// <summary>Rainbow trout, <i>Oncorhynchus mykiss</i>, resident form.</summary>
    RainbowTrout,

    /// <summary>Steelhead, <i>Oncorhynchus mykiss</i>, sea-going form; shares the rainbow trout curve.</summary>
    Steelhead,

    /// <summary>Cutthroat trout, <i>Oncorhynchus clarkii</i>; no published development curve is known.</summary>
    CutthroatTrout,

    /// <summary>Brown trout and sea trout, <i>Salmo trutta</i>.</summary>
    BrownTrout,

    /// <summary>Brook trout, <i>Salvelinus fontinalis</i>, a charr.</summary>
    BrookTrout,

    /// <summary>Lake trout, <i>Salvelinus namaycush</i>, a charr.</summary>
    LakeTrout,

    /// <summary>Atlantic salmon, <i>Salmo salar</i>.</summary>
    AtlanticSalmon,

    /// <summary>Chinook salmon, <i>Oncorhynchus tshawytscha</i>.</summary>
    ChinookSalmon,

    /// <summary>Coho salmon, <i>Oncorhynchus kisutch</i>.</summary>
    CohoSalmon,

    /// <summary>Chum salmon, <i>Oncorhynchus keta</i>.</summary>
    ChumSalmon,

    /// <summary>Sockeye salmon and kokanee, <i>Oncorhynchus nerka</i>.</summary>
    SockeyeSalmon,

    /// <summary>Pink salmon spawned in odd years, <i>Oncorhynchus gorbuscha</i>.</summary>
    PinkSalmonOdd,

    /// <summary>Pink salmon spawned in even years, <i>Oncorhynchus gorbuscha</i>.</summary>
    PinkSalmonEven,
}

/// <summary>The stages whose dates are forecast. Each means the moment at which half of the fish have reached it.</summary>
public enum Stage
{
    /// <summary>Half of the embryos show eyes through the shell.</summary>
    Eyed,

    /// <summary>Half have left the shell.</summary>
    Hatch,

    /// <summary>Half have left the bottom to swim (emergence, for a redd).</summary>
    SwimUp,
}
