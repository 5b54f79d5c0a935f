using Tankside.Hatchery.Kit;

namespace Tankside.Hatchery.Flags;

public static partial class Limits
{
    /// <summary>How many spares a programme needs; the pages of the kit read them under the same keys.</summary>
    public static class Spares
    {
        private static readonly KitSettings Standard = KitSettings.Defaults;

        public static readonly Setting Failures = new(KitSettings.FailuresKey, Standard.FailuresASeason, "share of chillers that fail in a season", "5-10%, the higher: " + Practice);
        public static readonly Setting RepairWeeks = new(KitSettings.RepairWeeksKey, Standard.RepairWeeks, "weeks that a repair takes", Practice);
        public static readonly Setting SeasonWeeks = new(KitSettings.SeasonWeeksKey, Standard.SeasonWeeks, "weeks of a season", Practice);
        public static readonly Setting Cover = new(KitSettings.CoverKey, Standard.Cover, "share of seasons or storms in which the spares are enough", Judgement);
        public static readonly Setting StormShare = new(KitSettings.StormShareKey, Standard.StormShare, "share of tanks whose chiller or pump does not come back after a storm", Judgement);
    }
}
