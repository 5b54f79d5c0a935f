namespace Tankside.Hatchery.Flags;

/// <summary>The troubles a flag can stand for.</summary>
public enum FlagKind
{
    Warm,
    Cold,
    IcedCoil,
    WarmingFast,
    ChillerFault,
    PumpFault,
    LowOxygen,
    Ammonia,
    Nitrite,
    Chlorine,
    Metals,
    PhSag,
    DieOff,
    Fungus,
    LateHatch,
    EarlyHatch,
    FeedingNearBreak,
    Silent,
    Contradictory,
    StuckThermometer,
    NotReady,
    Tally,
    ReportLate,
    SharedCause,
}

/// <summary>How soon a call is needed.</summary>
public enum Urgency
{
    ThisWeek,
    Today,
    ActNow,
}

/// <summary>The names that files and the API use.</summary>
public static class FlagNames
{
    private static readonly Dictionary<string, FlagKind> ByName =
        Enum.GetValues<FlagKind>().ToDictionary(NameOf, StringComparer.Ordinal);

    /// <summary>"WarmingFast" is written "warming-fast".</summary>
    public static string NameOf(FlagKind kind) => Hyphenated(kind.ToString());

    public static string NameOf(Urgency urgency) => Hyphenated(urgency.ToString());

    /// <summary>"ChillerBatch" is written "chiller-batch".</summary>
    public static string NameOf(SharedBy by) => Hyphenated(by.ToString());

    public static bool TryParse(string name, out FlagKind kind) => ByName.TryGetValue(name, out kind);

    private static string Hyphenated(string words) =>
        string.Concat(words.Select((c, i) => char.IsUpper(c) ? (i == 0 ? "" : "-") + char.ToLowerInvariant(c) : c.ToString()));
}
