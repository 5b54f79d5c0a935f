using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags;

/// <summary>Hatch seen before its interval begins.</summary>
/// <param name="Low95">2.5% end of the interval of half hatch, as it stood on the day before the first was seen.</param>
public sealed record EarlyHatchEvidence(LifeStage Stage, DateOnly SeenOn, DateOnly Mid, DateOnly Low95) : Evidence(Stage);

/// <summary>Swim-up too near to a break for the fry to learn to eat before it.</summary>
/// <param name="Mid">Swim-up; the day it was seen where <paramref name="Seen"/>.</param>
/// <param name="BreakFirst">First closed day.</param>
/// <param name="BreakLast">Last closed day.</param>
/// <param name="From">First day on which a swim-up is too near.</param>
/// <param name="Chance">Chance that swim-up falls between <paramref name="From"/> and the last closed day, to a hundredth.</param>
public sealed record FeedingEvidence(
    LifeStage Stage, bool Seen, DateOnly Mid, DateOnly Low80, DateOnly High80, DateOnly From, DateOnly BreakFirst, DateOnly BreakLast, double Chance)
    : Evidence(Stage);

/// <summary>Why a tank is not ready for eggs.</summary>
public enum Unready
{
    Unread,
    OffSetPoint,

    /// <summary>At its set point, but not for long enough by the day the eggs come.</summary>
    NotProved,
}

/// <summary>Eggs are due and the tank is not proved cold.</summary>
/// <param name="WaterC">Newest reading, °C; null when there is none.</param>
/// <param name="Since">First reading of the unbroken run at the set point, when there is one.</param>
public sealed record ReadinessEvidence(
    LifeStage Stage, Unready Why, int Eggs, DateOnly DueOn, double? WaterC, DateTime? At, DateTime? Since, double SetPointC) : Evidence(Stage);

/// <summary>An account that does not add up.</summary>
/// <param name="Came">Received and moved in.</param>
/// <param name="Unaccounted">What no entry explains; negative when more left than ever came.</param>
/// <param name="CountedAt">The newest count of the living, when there was one.</param>
/// <param name="Closed">True when the tank is closed and so holds nothing.</param>
public sealed record TallyEvidence(LifeStage Stage, int Came, int Unaccounted, DateTime? CountedAt, bool Closed, double Limit) : Evidence(Stage);

/// <summary>A release whose report nobody has sent.</summary>
/// <param name="DueOn">The last day on which it was in time.</param>
public sealed record ReportEvidence(LifeStage Stage, DateOnly ReleasedOn, DateOnly DueOn, int Fish, string Permit) : Evidence(Stage);
