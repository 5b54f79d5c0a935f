using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags;

/// <summary>The band in which a stage's water is well, by the programme's own limits.</summary>
public static class StageBand
{
    public static SafeBand Of(LifeStage stage, LimitSet limits) => stage == LifeStage.Fry
        ? new(limits[Limits.ColdLookFry], limits[Limits.WarmLookFry])
        : new(limits[Limits.ColdLookEgg], limits[Limits.WarmLookEgg]);
}
