using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags;

/// <summary>A tank that nobody has seen since the power went in its area.</summary>
/// <param name="Since">When the power went.</param>
/// <param name="ExpectedBack">When it was expected back, if anybody said so.</param>
/// <param name="BackAt">When it was said to be back; null while it is off.</param>
/// <param name="LastAt">The last reading; null when there has been none since the eggs came.</param>
/// <param name="LastMoving">What it said of the water: moving, still, or nothing.</param>
/// <param name="AirPassesAt">When the oxygen is at its limit with pump and air off; null when that is not to be feared.</param>
/// <param name="HeatPassesAt">When the water is at <paramref name="HeatLimit"/> with the chiller off; null when the room is too cool.</param>
/// <param name="AirFirst">True when fish are lost to want of air before they are lost to heat.</param>
/// <param name="Word">What an adult of the school answered, short of "all well".</param>
/// <param name="ChanceOff">Chance that the power stays away until fish are lost, in steps of a twentieth.</param>
public sealed record PowerCutEvidence(
    LifeStage Stage,
    DateTime Since,
    DateTime? ExpectedBack,
    DateTime? BackAt,
    DateTime? LastAt,
    double? LastWaterC,
    bool? LastMoving,
    int Fish,
    PassTimes? AirPassesAt,
    PassTimes? HeatPassesAt,
    double HeatLimit,
    bool AirFirst,
    SchoolWord? Word,
    double ChanceOff) : Evidence(Stage)
{
    /// <summary>The limit that comes first.</summary>
    public PassTimes? PassesAt => AirFirst ? AirPassesAt : HeatPassesAt;
}

/// <summary>An adult answered that there is trouble; what it is, only a call will tell.</summary>
/// <param name="MarkedAt">Since when the area is marked.</param>
public sealed record TroubleSaidEvidence(
    LifeStage Stage, SweepReason Reason, DateTime MarkedAt, DateTime At, DateTime? LastAt, double? LastWaterC) : Evidence(Stage);

/// <summary>A building shut with no notice: nobody is late, and still nobody knows how the tank is.</summary>
/// <param name="Since">When the area was shut.</param>
/// <param name="Days">Days unread that were to be school days, those before it was shut among them.</param>
public sealed record ShutEvidence(
    LifeStage Stage, SweepReason Reason, DateTime Since, DateTime? LastAt, int Days, bool LastWasFlagged, double? LastWaterC) : Evidence(Stage);

/// <summary>Hours until a limit, counted from an instant of their own.</summary>
internal readonly record struct HoursFrom(DateTime From, Band Hours)
{
    public PassTimes Passes => Situation.PassTimes(From, Hours)!;
}
