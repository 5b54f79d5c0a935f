namespace Tankside.Hatchery.Flags;

/// <summary>Which troubles of a tank speak for which shared cause, and how common each is by itself.</summary>
public static class SharedSigns
{
    /// <summary>Fewer dead than this are no sign (judgement).</summary>
    private const int FewestDead = 3;

    /// <summary>The tank's troubles that could come from such a cause.</summary>
    public static IEnumerable<StandingTrouble> Of(SharedBy by, SharedCauseTank tank) => tank.Troubles.Where(t => Speaks(by, t.Finding));

    /// <summary>The kind that a sentence names; null where only the deaths speak.</summary>
    public static FlagKind? Leading(SharedBy by, SharedCauseTank tank) => Of(by, tank)
        .OrderByDescending(t => t.Finding.Urgency).ThenBy(t => t.Finding.Kind).Select(t => (FlagKind?)t.Finding.Kind).FirstOrDefault();

    /// <summary>How likely a tank like others would look as bad by itself; 1 where nothing speaks.</summary>
    /// <param name="from">Troubles that began earlier are of another hour.</param>
    public static double Chance(SharedBy by, SharedCauseTank tank, DateTime from, LimitSet limits)
    {
        var signs = Of(by, tank).Where(t => t.Since >= from).Select(t => limits[ChanceOf(by, t.Finding)]);
        return Math.Min(signs.DefaultIfEmpty(1).Min(), by is SharedBy.Area or SharedBy.ChillerBatch ? 1 : ByDeaths(by, tank, limits));
    }

    /// <summary>Beside the chance of the deaths stands that of a die-off of the tank's own.</summary>
    private static double ByDeaths(SharedBy by, SharedCauseTank tank, LimitSet limits)
    {
        var deadOnArrival = by != SharedBy.Water && tank.Received > 0
            && tank.DeadOnArrival > limits[Limits.SharedArrival] * tank.Received;
        var tail = deadOnArrival ? 0 : tank.Dead < FewestDead ? 1 : tank.LossTail;
        return Math.Min(1, tail + limits[Limits.SharedLossChance]);
    }

    private static Setting ChanceOf(SharedBy by, Finding finding) => finding switch
    {
        { Kind: FlagKind.EarlyHatch } => Limits.SharedEarlyHatchChance,
        { Evidence: LossEvidence { Rising: true } } => Limits.SharedRiseChance,
        { Kind: FlagKind.DieOff } => Limits.SharedLossChance,
        _ => by switch
        {
            SharedBy.Area => Limits.SharedPowerChance,
            SharedBy.ChillerBatch => Limits.SharedChillerChance,
            SharedBy.Lot or SharedBy.Run or SharedBy.Water => Limits.SharedWaterChance,
        },
    };

    private static bool Speaks(SharedBy by, Finding finding) => by switch
    {
        SharedBy.Lot or SharedBy.Run => finding.Kind is FlagKind.DieOff or FlagKind.EarlyHatch,
        SharedBy.Water => finding.Kind is FlagKind.DieOff or FlagKind.Chlorine or FlagKind.Metals or FlagKind.Ammonia,
        SharedBy.Area => finding.Kind is FlagKind.Warm or FlagKind.WarmingFast or FlagKind.ChillerFault or FlagKind.PumpFault or FlagKind.LowOxygen,
        SharedBy.ChillerBatch => finding.Kind is FlagKind.ChillerFault or FlagKind.IcedCoil or FlagKind.WarmingFast,
    };
}
