using static Tankside.Hatchery.Flags.Suspect;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// The one table behind a diagnosis: how common each suspect is, and how often it shows each course of the water and answers yes to each
/// question. All of it is judgement from the trade's tales of what went wrong; no programme was found that counts causes. What is not
/// named in a row has the row's first number.
/// </summary>
internal static class Suspicions
{
    public static IReadOnlyList<Suspect> All { get; } = Enum.GetValues<Suspect>();

    /// <summary>How often each is the matter when a tank is flagged for its water, before anything is looked at.</summary>
    private static readonly Row Common = new(
        0.05, // Blocked hoses, cuts and water changes are heard of every season somewhere.
        (ChillerDead, 0.15), (CoilIced, 0.15), (PlugOrBreaker, 0.12), (PumpStopped, 0.12), // Most seasons, in most programmes.
        (AirStopped, 0.10), (RoomOrSun, 0.10), (SetPoint, 0.08), (PowerCut, 0.07), (Thermometer, 0.07), (Probe, 0.06),
        (NothingWrong, 0.20)); // A chiller that rests, a thermometer held too short.

    private static readonly Dictionary<WaterCourse, Row> Courses = new()
    {
        // Nobody read it: it says nothing about anybody.
        [WaterCourse.Unknown] = new(1),

        // What has just stopped, and what does not cool, leaves the water where it was for a while.
        [WaterCourse.AtSetPoint] = new(
            0.10, (NothingWrong, 0.90), (AirStopped, 0.90), (PumpStopped, 0.60), (ChillerDead, 0.35), (PlugOrBreaker, 0.30), (PowerCut, 0.30), (Thermometer, 0.20)),

        // One reading above the set point fits whatever warms.
        [WaterCourse.Warm] = new(
            0.30, (ChillerDead, 0.50), (BlockedFlow, 0.50), (RoomOrSun, 0.40), (SetPoint, 0.40), (PlugOrBreaker, 0.40), (Thermometer, 0.25),
            (CoilIced, 0.20), (NothingWrong, 0.10), (AirStopped, 0.05)),

        // One reading under it fits whatever cools too much, or reads wrong.
        [WaterCourse.Cool] = new(
            0.02, (SetPoint, 0.30), (Thermometer, 0.25), (CoilIced, 0.20), (Probe, 0.20), (WaterChange, 0.20), (NothingWrong, 0.15)),

        // Towards the room at 1-2 °F an hour: no cold is made, or none arrives.
        [WaterCourse.Rising] = new(
            0.03, (ChillerDead, 0.80), (BlockedFlow, 0.70), (PlugOrBreaker, 0.70), (PowerCut, 0.60), (CoilIced, 0.30), (RoomOrSun, 0.30), (PumpStopped, 0.30),
            (Probe, 0.25), (SetPoint, 0.15), (Thermometer, 0.08), (WaterChange, 0.05)),

        // It mends itself.
        [WaterCourse.ComingBack] = new(0.05, (NothingWrong, 0.50), (WaterChange, 0.30)),

        // Ice grows: the chiller never rests and the water creeps down.
        [WaterCourse.SlowDrop] = new(
            0.005, (CoilIced, 0.20), (Probe, 0.20), (Thermometer, 0.08), (SetPoint, 0.05), (NothingWrong, 0.03)),

        // And then the ice keeps the cold to itself. Hardly anything else looks so.
        [WaterCourse.DropThenRise] = new(0.01, (CoilIced, 0.35), (Thermometer, 0.03), (WaterChange, 0.02)),

        // A chiller that works stops at its set point long before.
        [WaterCourse.FarBelow] = new(0.005, (CoilIced, 0.40), (Thermometer, 0.12), (SetPoint, 0.10), (Probe, 0.10), (WaterChange, 0.05)),

        // No chiller cools so fast: cold water came in, or another thermometer.
        [WaterCourse.SuddenDrop] = new(0.01, (WaterChange, 0.30), (Thermometer, 0.15), (SetPoint, 0.10), (CoilIced, 0.05), (Probe, 0.05)),

        // The chiller holds a number, only not the right one; or the number is not the water's.
        [WaterCourse.SteadyElsewhere] = new(
            0.02, (SetPoint, 0.60), (Probe, 0.20), (Thermometer, 0.20), (RoomOrSun, 0.05), (BlockedFlow, 0.05)),

        // A hand that cleaned touched the buttons.
        [WaterCourse.SteadySinceCleaning] = new(0.005, (SetPoint, 0.30), (Probe, 0.08), (Thermometer, 0.02), (WaterChange, 0.02)),

        // Only day and night swing like that.
        [WaterCourse.DayPeaks] = new(0.01, (RoomOrSun, 0.50), (NothingWrong, 0.03)),

        // Water is never that steady; a stuck strip is.
        [WaterCourse.NeverChanges] = new(0.01, (Thermometer, 0.60), (NothingWrong, 0.05)),

        [WaterCourse.JumpAtChange] = new(0.01, (WaterChange, 0.80), (Thermometer, 0.02)),
    };

    private static readonly Dictionary<NextQuestion, Row> Yes = new()
    {
        // A dead chiller may hum on; a dead plug is silent; a chiller at its set point rests half the time.
        [NextQuestion.ChillerRunning] = new(
            0.80, (CoilIced, 0.95), (RoomOrSun, 0.95), (BlockedFlow, 0.90), (SetPoint, 0.75), (Probe, 0.60), (NothingWrong, 0.60), (ChillerDead, 0.25),
            (PlugOrBreaker, 0.05), (PowerCut, 0.02)),

        // Pumps stop by themselves or with their plug; ice and kinks weaken the return.
        [NextQuestion.WaterMoving] = new(
            0.97, (AirStopped, 0.90), (CoilIced, 0.80), (BlockedFlow, 0.60), (PlugOrBreaker, 0.15), (PumpStopped, 0.05), (PowerCut, 0.05)),

        // Some pumps draw the air in themselves.
        [NextQuestion.Bubbles] = new(0.95, (PumpStopped, 0.70), (PlugOrBreaker, 0.20), (PowerCut, 0.10), (AirStopped, 0.05)),

        [NextQuestion.IceOnCoil] = new(0.02, (CoilIced, 0.80), (Probe, 0.30), (BlockedFlow, 0.10), (SetPoint, 0.10)),

        // Low water lets the pump draw air and the probe hang dry.
        [NextQuestion.LevelRight] = new(0.95, (PumpStopped, 0.70), (Probe, 0.60)),

        [NextQuestion.LightsOn] = new(0.98, (PowerCut, 0.05)),

        [NextQuestion.DisplayLit] = new(0.97, (ChillerDead, 0.50), (PlugOrBreaker, 0.10), (PowerCut, 0.05)),

        // A cold display over a warm tank: the cold stays in the hose, or one of the two numbers lies.
        [NextQuestion.DisplayAgrees] = new(0.95, (ChillerDead, 0.97), (Probe, 0.50), (Thermometer, 0.20), (BlockedFlow, 0.10)),

        [NextQuestion.SetAsAgreed] = new(0.95, (SetPoint, 0.10)),

        [NextQuestion.ProbeInPlace] = new(0.90, (CoilIced, 0.60), (Probe, 0.10)),

        [NextQuestion.ThermometerRight] = new(0.95, (Thermometer, 0.10)),

        [NextQuestion.HeatNear] = new(0.10, (RoomOrSun, 0.80)),

        [NextQuestion.RefillFitted] = new(0.95, (WaterChange, 0.10)),
    };

    public static double Before(Suspect suspect) => Common.Of(suspect);

    public static double Of(WaterCourse course, Suspect suspect) => Courses[course].Of(suspect);

    public static double Of(NextQuestion question, bool yes, Suspect suspect) => yes ? Yes[question].Of(suspect) : 1 - Yes[question].Of(suspect);

    private sealed class Row(double others, params (Suspect Suspect, double Chance)[] named)
    {
        private readonly Dictionary<Suspect, double> chances = named.ToDictionary(n => n.Suspect, n => n.Chance);

        public double Of(Suspect suspect) => chances.GetValueOrDefault(suspect, others);
    }
}
