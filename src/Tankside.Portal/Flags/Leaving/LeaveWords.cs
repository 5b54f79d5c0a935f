using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>Whether a tank may be left, why, its worst credible closed days and the one thing to do, in sentences with clock times.</summary>
public sealed class LeaveWords(LeaveAnswer answer, TankRecord record, TemperatureUnit unit, DateTime now)
{
    private readonly ClockWords clock = new(record.Calendar.Clock, now);
    private readonly ScaleWords scale = new(unit);

    /// <summary>"till Mon 30 Nov 08:30", or for how long nobody is expected when no school day is in sight.</summary>
    public string Till => answer.Stretch.Opens is null ? $"for the next {answer.Stretch.ClosedDays.Count} days" : $"till {clock.When(answer.ActsAt)}";

    public static string Of(LeaveVerdict verdict) => verdict switch
    {
        LeaveVerdict.NotSafe => "not safe",
        LeaveVerdict.NotKnown => "not known",
        LeaveVerdict.Safe => "safe",
    };

    /// <summary>The shape that stands beside the word: the same three as for urgency.</summary>
    public static Urgency? MarkOf(LeaveVerdict verdict) => verdict switch
    {
        LeaveVerdict.NotSafe => Urgency.ActNow,
        LeaveVerdict.NotKnown => Urgency.Today,
        LeaveVerdict.Safe => null,
    };

    /// <summary>Everything that stands behind the verdict, in sentences: the trouble as it is, or what could come.</summary>
    public string Why => string.Join(' ', new[] { Because, ComingWords, answer.Troubles.Count > 0 ? LeftAsItIs : $"{Worst} {Cost}" }.Where(w => w.Length > 0));

    private string Because => answer.Troubles is [var first, ..]
        ? $"{new ReasonWords(record.Calendar, answer.Fish, now, unit).Of(first)}{Also(answer.Troubles.Skip(1).ToList())}"
        : answer.Verdict == LeaveVerdict.NotKnown ? NotSeen : "";

    private static string Also(List<Finding> others) =>
        others.Count == 0 ? "" : $" Also: {string.Join(", ", others.Select(t => FlagWords.Of(t.Kind)))}.";

    private string NotSeen => answer.Looked switch
    {
        { At: null } => "Nobody has read it since the eggs came.",
        { Temperature: true, At: { } at } => $"Read {clock.At(at)}, but nobody said whether the water moves.",
        { Flow: true, At: { } at } => $"Looked at {clock.At(at)}, but without a temperature.",
        { At: { } at } => $"Last looked at {clock.At(at)}.",
    };

    /// <summary>"last look Tue 09:15", for the line beneath the tank's name.</summary>
    public string LastLook => answer.Looked.At is { } at ? $"last look {(record.Calendar.Clock.Day(at) == record.Calendar.Clock.Day(now) ? $"today {clock.Clock(at)}" : clock.When(at))}" : "never looked at";

    private string LeftAsItIs => $"Left as it is, about {Fish(answer.ExpectedLoss)} of {CountWords.Number(answer.Fish)} would be lost by {clock.When(answer.ActsAt)}.";

    private string ComingWords
    {
        get
        {
            var told = record.Limits[Limits.Leaving.Coming];
            var (coming, days) = (answer.Coming, answer.Stretch.IsBreak ? "the break" : "the closed days");
            List<string> parts = [];
            if (coming.Hatch >= told)
            {
                parts.Add($"Hatch may fall into {days} ({Percent(coming.Hatch)}).");
            }

            if (coming.SwimUp >= told)
            {
                parts.Add($"Swim-up, and with it first food, may fall into {days} ({Percent(coming.SwimUp)}).");
            }

            if (coming.NewFeeders && coming.SwimsSince is { } since)
            {
                parts.Add($"They swim since {since.ToString("ddd d MMM", CultureInfo.InvariantCulture)} and are still learning to eat.");
            }

            return string.Join(' ', parts);
        }
    }

    /// <summary>"If the chiller stops at 15:15 on Friday, the water passes 59 °F (15 °C) between Sat 02:00 and Sat 11:00; nobody looks before Mon 08:30."</summary>
    private string Worst
    {
        get
        {
            var worst = answer.Worst;
            var fault = $"If {Fault(worst.Fault)} at {clock.Clock(worst.From)} on {clock.Weekday(worst.From)}";
            var nobody = $"nobody looks before {clock.When(answer.ActsAt)}";
            if (worst.PassesAt is not { } passes)
            {
                return $"{fault}, the water stays under {scale.Both(worst.LimitC ?? worst.StartC)} in this room; {nobody}.";
            }

            var what = worst.LimitC is { } limit ? $"the water passes {scale.Both(limit)}"
                : answer.Stage == Hatchery.Eggs.LifeStage.Fry ? "the water runs short of oxygen"
                : "heaped eggs or alevins run short of air";
            return passes.Low >= answer.ActsAt
                ? $"{fault}, {what} at the soonest {clock.When(ClockWords.Before(passes.Low))}: after somebody is back at {clock.When(answer.ActsAt)}."
                : $"{fault}, {what} between {clock.When(ClockWords.Before(passes.Low))} and {clock.When(ClockWords.After(passes.High))}; {nobody}.";
        }
    }

    /// <summary>What that would cost, and how rare it is.</summary>
    private string Cost
    {
        get
        {
            var lost = answer.Worst.ShareLost * answer.Fish;
            var cost = lost < 1 ? "By then next to none would be lost" : $"By then about {Fish(lost)} of {CountWords.Number(answer.Fish)} would be lost";
            var times = 1 / Math.Max(answer.FaultChance, 1e-4);
            times = times < 20 ? times : 10 * Math.Round(times / 10);
            return $"{cost}; something stops in about 1 of {CountWords.Number((int)Math.Round(times))} such {(answer.Stretch.IsBreak ? "breaks" : "weekends")}.";
        }
    }

    private static string Fish(double fish) => CountWords.Number((int)Math.Round(fish));

    /// <summary>"163", "0.4": the fish expected lost.</summary>
    public string Expected => answer.ExpectedLoss.ToString(answer.ExpectedLoss < 9.5 ? "0.0" : "#,0", CultureInfo.InvariantCulture);

    /// <summary>The one thing to do before the bell.</summary>
    public string Do => answer.Do switch
    {
        BeforeTheBell.Nothing => "Nothing more: lid on, and nobody pulls a plug.",
        BeforeTheBell.ReadNow => answer.Looked switch
        {
            { Temperature: true } => "Look whether the water moves and bubbles, and tick it in today's reading.",
            { Flow: true } => "Read the thermometer in the water and enter it.",
            _ => "Read the tank now: thermometer, water moving, bubbles.",
        },
        BeforeTheBell.ThawCoil => "Have an adult unplug the chiller alone, with pump and air on, until the ice is gone; read the tank again before the bell.",
        BeforeTheBell.CoolAgain => "Get the water cold again before anybody leaves: sealed frozen bottles now, and ask the coordinator for a spare chiller.",
        BeforeTheBell.FlowAgain => "Get the water moving before anybody leaves: an adult unplugs the pump, frees it and starts it; if it stays still, ask for a spare.",
        BeforeTheBell.SettleTrouble => $"See to this first: {FlagWords.Of(answer.Troubles[0].Kind)}. What to do stands on the tank's page.",
        BeforeTheBell.HalfFeed => "Feed half today and take out what is left after five minutes.",
        BeforeTheBell.LowerSetPoint => $"Have an adult lower the set point by {(unit == TemperatureUnit.F ? "1 °F" : "half a degree")}, no more, and see that the chiller starts.",
        BeforeTheBell.SpareAir => "Give it air of its own: a second air stone from another outlet, and battery air that starts by itself when the power fails.",
        BeforeTheBell.AdultLooks => Looks,
        BeforeTheBell.MoveToHolding => "Ask the coordinator for a watched holding tank and move the fish there before the break.",
    };

    private string Looks => answer.LookOn switch
    {
        [] => "Have an adult with a key look at it today.",
        [var day] => $"Name an adult with a key who looks at it on {Day(day)}.",
        [var first, var second] => $"Name an adult with a key who looks at it on {Day(first)} and {Day(second)}.",
        [var first, .., var last] => $"Name an adult with a key who looks at it every other day from {Day(first)} to {Day(last)}.",
    };

    private static string Fault(LeaveFault fault) => fault switch
    {
        LeaveFault.Chiller => "the chiller stops",
        LeaveFault.Pump => "the pump stops",
        LeaveFault.Power => "the power or the plug fails",
    };

    private static string Day(DateOnly day) => day.ToString("ddd d MMM", CultureInfo.InvariantCulture);

    private static string Percent(double chance) => $"{(100 * chance).ToString("0", CultureInfo.InvariantCulture)} in 100";
}
