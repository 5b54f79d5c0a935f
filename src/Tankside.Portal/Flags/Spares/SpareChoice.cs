using Tankside.Hatchery.Kit;

namespace Tankside.Portal.Flags.Spares;

/// <summary>A spare to reserve, or one to give back.</summary>
public sealed record SpareChoice(KitItem Item, bool Reserve);
