namespace Tankside.Hatchery.Flags;

public static partial class Limits
{
    /// <summary>The season's dates and its account: when a hatch is early, a break too near, a tank not ready, a ledger not balanced.</summary>
    public static class Season
    {
        public static readonly Setting FirstBeforeHalf = new("early-hatch.first-before-half", 1, "days the first hatch runs ahead of half", "start to end takes 2-4 days in farmed rainbow trout");
        public static readonly Setting EarlyHatchDays = new("early-hatch.days", 14, "days after the first hatch that it is told", Judgement);
        public static readonly Setting EarlyHatchShare = new("loss.early-hatch.share", 0.02, "share", Judgement);
        public static readonly Setting EarlyHatchHours = new("loss.early-hatch.hours", 240, "hours", Judgement);

        public static readonly Setting BreakDays = new("feeding.break-days", 3, "closed days in a row, more than a weekend", Judgement);
        public static readonly Setting DaysBeforeBreak = new("feeding.days-before", 10, "school days that fry need to learn to eat", "fed for three before ten days closed, all were lost: " + Practice);
        public static readonly Setting BreakChance = new("feeding.chance", 0.5, "chance of a swim-up too near, over which it is told", Judgement);
        public static readonly Setting BreakNear = new("feeding.near", 14, "days before the break from which it is for today", Judgement);
        public static readonly Setting UnfedDays = new("feeding.unfed-days", 10, "closed days unfed that lose the whole share", "ten days lost all: " + Practice);
        public static readonly Setting UnfedShare = new("loss.unfed.share", 0.95, "share", "all were lost in the told case: " + Practice);
        public static readonly Setting UnfedHours = new("loss.unfed.hours", 360, "hours from swim-up", "deaths come 10-20 days after button-up: " + Practice);

        public static readonly Setting FeedColdest = new("feeding.coldest", 5, "°C, colder than which fry hardly eat", Practice);
        public static readonly Setting FeedChange = new("feeding.change", 0.1, "share of the water that a class changes a day, at most", "a fifth to a quarter, a few times a week: " + Practice);
        public static readonly Setting FeedAmmonia = new("feeding.ammonia", 1, "mg/L total ammonia as N that a cold tank at a usual pH still bears", "four times the first step of a test kit: " + Practice);

        public static readonly Setting ReadyAhead = new("not-ready.ahead", 3, "days before the eggs are due", Practice);
        public static readonly Setting ReadyDays = new("not-ready.days", 3, "days at the set point before eggs", Practice);
        public static readonly Setting ReadyOff = new("not-ready.off", 1.1, "°C from the set point", "2 °F either way: " + Practice);

        public static readonly Setting TallyShare = new("tally.share", 0.15, "share of those that came", "counts by weight or volume ran 9-10% over; half as much again: judgement");

        public static readonly Setting ReportDays = new(Releases.ReleaseRules.ReportWithinSetting, Releases.ReleaseRules.ReportWithinDays, "days after a release", "agencies ask within 10, 14 or 15 days; the permit says which");

        public static Readings.FeedingLimits FeedingOf(LimitSet limits) => new(limits[FeedColdest], limits[FeedChange], limits[FeedAmmonia]);
    }
}
