using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.Spares;
using Tankside.Portal.Places;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags;

/// <summary>A row of the round: a tank to call, or a cause that several tanks share.</summary>
/// <param name="Key">What the page knows it by and links to it with.</param>
/// <param name="Calendar">By whose days and hours its times are written.</param>
public abstract record RoundRow(string Key, Hatchery.Places.SchoolCalendar Calendar)
{
    public abstract IReadOnlyList<RoundTrouble> Troubles { get; init; }

    public RoundTrouble Leading => Troubles[0];

    public Urgency Urgency => Troubles.Max(t => t.Flag.Urgency);

    /// <summary>When it comes back into the round; null while it stands in it.</summary>
    public DateTime? RestsUntil => Troubles.All(t => t.RestsUntil is not null) ? Troubles.Min(t => t.RestsUntil) : null;

    /// <summary>Fish saved by calling now.</summary>
    public abstract double ExpectedLoss { get; }

    public abstract int Fish { get; }

    /// <summary>Who it is, on a row: school and room, or what is shared.</summary>
    public abstract string Who { get; }
}

/// <summary>A tank in the round with everything its row says.</summary>
/// <param name="Spares">What could be lent against its troubles, the nearest of the best kind first.</param>
public sealed record RoundCall(Call<Flag> Call, TankPlace Place, IReadOnlyList<RoundTrouble> Troubles, IReadOnlyList<SpareShown> Spares)
    : RoundRow(Place.Tank.Code, Place.Calendar)
{
    public override IReadOnlyList<RoundTrouble> Troubles { get; init; } = Troubles;

    public override double ExpectedLoss => Call.ExpectedLoss;

    public override int Fish => Call.Fish;

    public override string Who => $"{Place.School.Name}, {Place.Room.Name}";
}

/// <summary>A cause that several tanks share.</summary>
/// <param name="Calls">The calls of its own tanks that stand or rest in the round.</param>
public sealed record RoundShared(RoundTrouble Trouble, SharedCauseEvidence Evidence, Hatchery.Places.SchoolCalendar Of, IReadOnlyList<RoundCall> Calls)
    : RoundRow(KeyOf(Evidence.By, Evidence.Code), Of)
{
    public override IReadOnlyList<RoundTrouble> Troubles { get; init; } = [Trouble];

    /// <summary>What the programme says in its own words.</summary>
    public OwnTexts Texts { get; init; } = OwnTexts.None;

    public override double ExpectedLoss => Trouble.ExpectedLoss;

    public override int Fish => Evidence.Fish;

    public override string Who => $"{CountWords.Capital(ReasonWords.Naming(Evidence.By))} {Evidence.Code}: {Evidence.Tanks.Count} of {Evidence.Of} tanks";

    /// <summary>True when the cause is behind that trouble of that tank: signs of heat and still water go together, deaths go alone.</summary>
    public bool Explains(string tank, FlagKind kind) => Evidence.Tanks.Any(t => t.Code == tank
        && ((t.Kind ?? FlagKind.DieOff) is var leading && (leading == kind || (IsOfKit(leading) && IsOfKit(kind)))));

    private static bool IsOfKit(FlagKind kind) => Dangers.Of(kind) is Danger.Heat or Danger.Air;

    /// <summary>E.g. "lot:A".</summary>
    public static string KeyOf(SharedBy by, string code) => $"{FlagNames.NameOf(by)}:{code}";
}

/// <summary>One flag of a row, worded.</summary>
/// <param name="RestsUntil">Until when a person lets it rest; null when it stands in the round.</param>
public sealed record RoundTrouble(
    Flag Flag, int Rank, double ExpectedLoss, Band? HoursLeft, string Reason, string? TakenByName, DateTime? RestsUntil);
