using Tankside.Hatchery.Readings.SetPoints;

namespace Tankside.Hatchery.Flags;

public static partial class Limits
{
    /// <summary>How a tank is steered by the dial of its chiller until swim-up.</summary>
    public static class SetPoints
    {
        public static readonly Setting Low = new("set-point.low", 4.4, "°C, coldest set-point planned", "40 °F: " + Practice);
        public static readonly Setting High = new("set-point.high", 12.2, "°C, warmest set-point planned for eggs and alevins", "54 °F: " + Practice);
        public static readonly Setting Step = new("set-point.step", 0.56, "°C a day at most", "1 °F: " + Practice);
        public static readonly Setting SwimUpWeight = new("set-point.swim-up-weight", 3, "hatches on a closed day that weigh as much as one swim-up too near a break", Judgement);
        public static readonly Setting Alike = new("set-point.alike", 0.05, "difference of chances that decides nothing", Judgement);
        public static readonly Setting ColdForFilter = new("set-point.filter-cold", 8, "°C, below which a filter ripens slowly", Practice);

        public static SetPointRules RulesOf(LimitSet limits) => new(
            limits[Low], limits[High], limits[Step], (int)limits[Season.BreakDays], (int)limits[Season.DaysBeforeBreak],
            limits[SwimUpWeight], limits[Alike]);
    }
}
