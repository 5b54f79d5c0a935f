namespace Tankside.Hatchery.Flags;

public static partial class Limits
{
    /// <summary>What the course of the water and the ticks have to look like before a fault is read from them.</summary>
    public static class Faults
    {
        public static readonly Setting Days = new("fault.days", 7, "days of temperatures looked back on", Judgement);
        public static readonly Setting Below = new("fault.below", 0.5, "°C under the set point", "an icing coil falls 1-2 °F under it first: " + Practice);
        public static readonly Setting Sudden = new("fault.sudden", 2, "°C down between two readings", Judgement);
        public static readonly Setting Steady = new("fault.steady", 0.4, "°C between steady readings", "one school thermometer's error: " + Practice);
        public static readonly Setting SteadyOff = new("fault.steady-off", 1.5, "°C from set point and room", Judgement);
        public static readonly Setting Peak = new("fault.peak", 0.8, "°C, afternoon over morning", Judgement);
        public static readonly Setting TickAge = new("fault.tick-age", 24, "hours a tick speaks beside a newer reading", Judgement);
        public static readonly Setting HotRoom = new("fault.hot-room", 3, "°C over the room's usual", Judgement);
        public static readonly Setting Lead = new("fault.lead", 0.6, "share of the suspicion that one must hold to lead", Judgement);
    }
}
