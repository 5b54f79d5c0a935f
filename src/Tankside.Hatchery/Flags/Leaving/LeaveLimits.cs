namespace Tankside.Hatchery.Flags;

public static partial class Limits
{
    /// <summary>
    /// What a tank left alone over closed days is weighed by. Nobody has counted these; all are judgement, to be replaced by a programme's
    /// own record.
    /// </summary>
    public static class Leaving
    {
        public static readonly Setting FromHour = new("leave.from-hour", 12, "o'clock of the last school day, local", Judgement);
        public static readonly Setting Safe = new("leave.safe", 0.5, "fish expected lost, at most", Judgement + "; two tanks within half a fish are equal in the round");
        public static readonly Setting Worth = new("leave.worth", 0.25, "fish expected saved for an act to be worth asking, and within which two acts are equal", Judgement);

        public static readonly Setting ChillerPart = new("leave.fault.chiller", 0.25, "share of faults", "chillers at 5-10% a season beside all faults: " + Judgement);
        public static readonly Setting PumpPart = new("leave.fault.pump", 0.35, "share of faults", Judgement);
        public static readonly Setting PowerPart = new("leave.fault.power", 0.30, "share of faults; the rest is slow and harms nothing meanwhile", Judgement);
        public static readonly Setting Heaped = new("leave.heaped", 0.25, "chance that eggs or alevins lie heaped", Judgement);

        public static readonly Setting Coming = new("leave.coming", 0.2, "chance from which a hatch or swim-up is told", Judgement);
        public static readonly Setting HatchShare = new("leave.hatch.share", 0.001, "share lost when a hatch runs unattended", "shells clog a basket: " + Judgement);
        public static readonly Setting HungerShare = new("leave.hunger.share", 0.5, "share of unfed fry lost in the end", Judgement);
        public static readonly Setting HungerDays = new("leave.hunger.days", 14, "days unfed, middle", "new feeders die 10-20 days after button-up: " + Practice);
        public static readonly Setting HungerDaysFed = new("leave.hunger.days-fed", 35, "days unfed, middle, for fry that have learned to eat", Judgement);
        public static readonly Setting Newly = new("leave.hunger.newly", 14, "days from swim-up on which fry are new to food", Practice);
        public static readonly Setting LeftFood = new("leave.left-food", 0.001, "share lost to food left lying over closed days", Judgement);

        public static readonly Setting LookHour = new("leave.look.hour", 10, "o'clock at which an adult looks, local", Judgement);
        public static readonly Setting LookEvery = new("leave.look.every", 2, "days between an adult's looks in a break", Judgement);
        public static readonly Setting BatteryHours = new("leave.battery.hours", 30, "hours of battery air", "two D cells: " + Practice);
        public static readonly Setting Step = new("leave.set-point.step", 0.56, "°C a day", "1 °F a day at most: " + Practice);
        public static readonly Setting StepLowest = new("leave.set-point.lowest", 7, "°C set point", "best 7-10 °C for eggs (Kwain 1975)");
        public static readonly Setting MoveShare = new("leave.move.share", 0.02, "share lost in netting and carrying", Judgement);
        public static readonly Setting ActWorks = new("leave.act-works", 0.8, "chance that what is done about a trouble before the bell ends it", Judgement);
    }
}
