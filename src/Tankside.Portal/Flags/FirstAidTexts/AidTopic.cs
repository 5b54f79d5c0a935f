using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>A trouble with a first aid of its own: a kind of flag, or a cause within a kind whose steps are other ones altogether.</summary>
/// <param name="Key">As addresses and stored texts name it.</param>
/// <param name="Ours">The steps as they are shipped, with nothing known beyond the trouble.</param>
public sealed record AidTopic(string Key, FlagKind Kind, Bilingual Name, Func<LifeStage, AidTank, FirstAidScript> Ours)
{
    /// <summary>The name where a line begins; pH is written so anywhere.</summary>
    public string Title => Name.En.StartsWith("pH", StringComparison.Ordinal) ? Name.En : CountWords.Capital(Name.En);

    /// <summary>Steps said before ours.</summary>
    public string BeforeKey => $"{Start}before";

    /// <summary>Steps said instead of ours.</summary>
    public string InsteadKey => $"{Start}instead";

    public string AskKey => $"{Start}ask";

    public string ClassKey => $"{Start}class";

    /// <summary>With what the keys of all its texts begin.</summary>
    public string Start => $"{AidTopics.Start}{Key}.";

    /// <summary>A class is told of it; once a kind, whatever the cause.</summary>
    public bool ForClass => ClassLines.IsTold(Kind) && Key == FlagNames.NameOf(Kind);
}

/// <summary>The troubles that first aid is written for.</summary>
public static class AidTopics
{
    public const string Start = "aid.";

    public static readonly AidTopic
        Refill = new("refill", FlagKind.Cold, new("cold after a water change", "fría tras un cambio de agua"), ColdAid.Refill),
        Leak = new("leak", FlagKind.PumpFault, new("water on the floor", "agua en el piso"), (stage, _) => LeakAid.Of(stage)),
        Cloudy = new("cloudy", FlagKind.Ammonia, new("cloudy water", "agua turbia"), AmmoniaAid.Cloudy),
        PowerCut = new("power-cut", FlagKind.Silent, new("power cut", "corte de luz"), AreaAid.PowerCut),
        PowerBack = new("power-back", FlagKind.Silent, new("power back, tank not seen", "volvió la luz, tanque sin ver"), (_, tank) => AreaAid.PowerBack(tank)),
        Shut = new("shut", FlagKind.Silent, new("building shut", "edificio cerrado"), (stage, _) => AreaAid.Shut(stage));

    /// <summary>In the order of the kinds, a cause after its kind.</summary>
    public static IReadOnlyList<AidTopic> All { get; } =
    [
        .. Enum.GetValues<FlagKind>().SelectMany(kind => (AidTopic[])
        [
            new AidTopic(FlagNames.NameOf(kind), kind, KindNames.Of(kind), (stage, tank) => FirstAid.Usual(kind, stage, tank, null)),
            .. new[] { Refill, Leak, Cloudy, PowerCut, PowerBack, Shut }.Where(t => t.Kind == kind),
        ]),
    ];

    private static readonly Dictionary<string, AidTopic> ByKey = All.ToDictionary(t => t.Key, StringComparer.Ordinal);

    public static AidTopic? Find(string key) => ByKey.GetValueOrDefault(key);

    public static AidTopic Of(FlagKind kind, Evidence? evidence = null) => evidence switch
    {
        RefillEvidence => Refill,
        LeakEvidence => Leak,
        CloudyEvidence => Cloudy,
        PowerCutEvidence { BackAt: null } => PowerCut,
        PowerCutEvidence => PowerBack,
        ShutEvidence => Shut,
        _ => ByKey[FlagNames.NameOf(SuspectAid.IsIce(kind, evidence) ? FlagKind.IcedCoil : kind)],
    };
}
