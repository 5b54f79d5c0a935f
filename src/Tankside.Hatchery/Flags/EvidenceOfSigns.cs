using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags;

/// <summary>Somebody at the tank says that it feels warm; nobody has read a number since.</summary>
/// <param name="LastWaterC">The last temperature before, °C; null when there is none.</param>
public sealed record SaidWarmEvidence(LifeStage Stage, DateTime At, double? LastWaterC, DateTime? LastAt) : Evidence(Stage);

/// <summary>Water on the floor.</summary>
public sealed record LeakEvidence(LifeStage Stage, DateTime At) : Evidence(Stage);

/// <summary>Cloudy water and no ammonia test since.</summary>
/// <param name="Since">The first look of the unbroken run of cloudy ones.</param>
public sealed record CloudyEvidence(LifeStage Stage, DateTime At, DateTime Since) : Evidence(Stage);
