using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>May this tank be left till it is next looked at?</summary>
public enum LeaveVerdict
{
    NotSafe,
    NotKnown,
    Safe,
}

/// <summary>
/// The one thing to do before the bell, in the order of the trouble it gives. It is the act that lowers the expected loss most; of several
/// nearly as good, and of those that make the tank safe if any does, the one that asks least. An adult does it.
/// </summary>
public enum BeforeTheBell
{
    Nothing,
    ReadNow,
    ThawCoil,
    CoolAgain,
    FlowAgain,
    SettleTrouble,
    HalfFeed,
    LowerSetPoint,

    /// <summary>A second air stone from another outlet, and battery air that starts by itself when the power fails.</summary>
    SpareAir,
    AdultLooks,
    MoveToHolding,
}

/// <summary>The last look, and whether it says enough for tonight.</summary>
/// <param name="At">Null when nobody has looked since the eggs came.</param>
/// <param name="Temperature">The water was read since the day that counts.</param>
/// <param name="Flow">And somebody saw whether it moves.</param>
public sealed record LastLook(DateTime? At, bool Temperature, bool Flow)
{
    public bool SaysEnough => Temperature && Flow;
}

/// <summary>What passes its limit when the worst credible fault comes just after the bell.</summary>
/// <param name="From">The moment of the fault.</param>
/// <param name="StartC">Water then, °C.</param>
/// <param name="LimitC">The heat limit, °C; null where air, not heat, takes most.</param>
/// <param name="PassesAt">When the limit is passed; null when it never is.</param>
/// <param name="ShareLost">Share of the fish lost by the time somebody acts.</param>
public sealed record WorstWeekend(LeaveFault Fault, DateTime From, double StartC, double? LimitC, PassTimes? PassesAt, double ShareLost);

/// <summary>How a tank would come through the closed stretch under way, or the next one.</summary>
/// <param name="ActsAt">When somebody can act at the tank again.</param>
/// <param name="ExpectedLoss">Fish expected lost if it is left as it is.</param>
/// <param name="FaultChance">Chance that something stops between the last look and the next.</param>
/// <param name="SavedByDoing">Fish of these that <paramref name="Do"/> is expected to save.</param>
/// <param name="LookOn">The days on which an adult would look; for <see cref="BeforeTheBell.AdultLooks"/>.</param>
/// <param name="Troubles">Open now, the worst first.</param>
public sealed record LeaveAnswer(
    ClosedStretch Stretch, DateTime ActsAt, LifeStage Stage, int Fish, LeaveVerdict Verdict, double ExpectedLoss, double FaultChance,
    WorstWeekend Worst, BeforeTheBell Do, double SavedByDoing, IReadOnlyList<DateOnly> LookOn, LastLook Looked, Coming Coming, IReadOnlyList<Finding> Troubles);
