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
        var signs = Of(by, tank).Where(t => t.Since >= from).ToList();
        var floor = limits[FloorOf(by)];
        var chance = signs.Count == 0 ? 1
            : signs.All(t => t.Finding.Kind == FlagKind.Silent) ? limits[Limits.SharedSilentChance]
            : floor;
        return Math.Max(floor, Math.Min(chance, IsOfLosses(by) ? ByDeaths(by, tank, limits) : 1));
    }

    private static double ByDeaths(SharedBy by, SharedCauseTank tank, LimitSet limits)
    {
        var deadOnArrival = by != SharedBy.Water && tank.Received > 0
            && tank.DeadOnArrival > limits[Limits.SharedArrival] * tank.Received;
        return deadOnArrival ? 0 : tank.Dead < FewestDead ? 1 : tank.LossTail;
    }

    private static bool IsOfLosses(SharedBy by) => by is SharedBy.Lot or SharedBy.Run or SharedBy.Water;

    private static Setting FloorOf(SharedBy by) => by switch
    {
        SharedBy.Lot or SharedBy.Run or SharedBy.Water => Limits.SharedLossChance,
        SharedBy.Area => Limits.SharedPowerChance,
        SharedBy.ChillerBatch => Limits.SharedChillerChance,
    };

    private static bool Speaks(SharedBy by, Finding finding) => by switch
    {
        SharedBy.Lot or SharedBy.Run => finding.Kind is FlagKind.DieOff or FlagKind.EarlyHatch,
        SharedBy.Water => finding.Kind is FlagKind.DieOff or FlagKind.Chlorine or FlagKind.Metals or FlagKind.Ammonia,
        SharedBy.Area => finding.Kind is FlagKind.Warm or FlagKind.WarmingFast or FlagKind.ChillerFault or FlagKind.PumpFault or FlagKind.LowOxygen
            || finding.Evidence is SilenceEvidence { MissedDays: > 0 },
        SharedBy.ChillerBatch => finding.Kind is FlagKind.ChillerFault or FlagKind.IcedCoil or FlagKind.WarmingFast,
    };
}
