using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>Whether a tank may be left, why, its worst credible closed days and the one thing to do, in sentences with clock times.</summary>
public sealed class LeaveWords(LeaveAnswer answer, TankRecord record, TemperatureUnit unit, DateTime now, Say? reader = null)
{
    private readonly Say say = reader ?? Say.InEnglish;
    private readonly ClockWords clock = new(record.Calendar.Clock, now, reader);
    private readonly ScaleWords scale = new(unit, reader);

    /// <summary>"till Mon 30 Nov 08:30", or for how long nobody is expected when no school day is in sight.</summary>
    public string Till => answer.Stretch.Opens is null ? say.Of("for the next {0} days", answer.Stretch.ClosedDays.Count) : say.Of("till {0}", clock.When(answer.ActsAt));

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
        ? $"{Reasons.Of(first, record.Calendar, unit, answer.Fish, now, say.Language, record.Texts)}{Also(answer.Troubles.Skip(1).ToList())}"
        : answer.Verdict == LeaveVerdict.NotKnown ? NotSeen : "";

    private string Also(List<Finding> others) =>
        others.Count == 0 ? "" : " " + say.Of("Also: {0}.", string.Join(", ", others.Select(t => KindNames.Of(t.Kind).In(say.Language))));

    private string NotSeen => answer.Looked switch
    {
        { At: null } => say["Nobody has read it since the eggs came."],
        { Temperature: true, At: { } at } => say.Of("Read {0}, but nobody said whether the water moves.", clock.At(at)),
        { Flow: true, At: { } at } => say.Of("Looked at {0}, but without a temperature.", clock.At(at)),
        { At: { } at } => say.Of("Last looked at {0}.", clock.At(at)),
    };

    /// <summary>"last look Tue 09:15", for the line beneath the tank's name.</summary>
    public string LastLook => answer.Looked.At is { } at ? say.Of("last look {0}", record.Calendar.Clock.Day(at) == record.Calendar.Clock.Day(now) ? say.Of("today {0}", clock.Clock(at)) : clock.When(at)) : say["never looked at"];

    private string LeftAsItIs => say.Of("Left as it is, about {0} of {1} would be lost by {2}.", Fish(answer.ExpectedLoss), CountWords.Number(answer.Fish), clock.When(answer.ActsAt));

    private string ComingWords
    {
        get
        {
            var told = record.Limits[Limits.Leaving.Coming];
            var (coming, days) = (answer.Coming, answer.Stretch.IsBreak ? say["the break"] : say["the closed days"]);
            List<string> parts = [];
            if (coming.Hatch >= told)
            {
                parts.Add(say.Of("Hatch may fall into {0} ({1}).", days, Percent(coming.Hatch)));
            }

            if (coming.SwimUp >= told)
            {
                parts.Add(say.Of("Swim-up, and with it first food, may fall into {0} ({1}).", days, Percent(coming.SwimUp)));
            }

            if (coming.NewFeeders && coming.SwimsSince is { } since)
            {
                parts.Add(say.Of("They swim since {0} and are still learning to eat.", Day(since)));
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
            var fault = say.Of("If {0} at {1} on {2}", Fault(worst.Fault), clock.Clock(worst.From), clock.Weekday(worst.From));
            var nobody = say.Of("nobody looks before {0}", clock.When(answer.ActsAt));
            if (worst.PassesAt is not { } passes)
            {
                return say.Of("{0}, the water stays under {1} in this room; {2}.", fault, scale.Both(worst.LimitC ?? worst.StartC), nobody);
            }

            var what = worst.LimitC is { } limit ? say.Of("the water passes {0}", scale.Both(limit))
                : answer.Stage == Hatchery.Eggs.LifeStage.Fry ? say["the water runs short of oxygen"]
                : StageNames.Of(record.Texts).In(say["heaped eggs or alevins run short of air"], say.Language);
            return passes.Low >= answer.ActsAt
                ? say.Of("{0}, {1} at the soonest {2}: after somebody is back at {3}.", fault, what, clock.When(ClockWords.Before(passes.Low)), clock.When(answer.ActsAt))
                : say.Of("{0}, {1} between {2} and {3}; {4}.", fault, what, clock.When(ClockWords.Before(passes.Low)), clock.When(ClockWords.After(passes.High)), nobody);
        }
    }

    /// <summary>What that would cost, and how rare it is.</summary>
    private string Cost
    {
        get
        {
            var lost = answer.Worst.ShareLost * answer.Fish;
            var cost = lost < 1 ? say["By then next to none would be lost"] : say.Of("By then about {0} of {1} would be lost", Fish(lost), CountWords.Number(answer.Fish));
            var times = 1 / Math.Max(answer.FaultChance, 1e-4);
            times = times < 20 ? times : 10 * Math.Round(times / 10);
            return answer.Stretch.IsBreak
                ? say.Of("{0}; something stops in about 1 of {1} such breaks.", cost, CountWords.Number((int)Math.Round(times)))
                : say.Of("{0}; something stops in about 1 of {1} such weekends.", cost, CountWords.Number((int)Math.Round(times)));
        }
    }

    private static string Fish(double fish) => CountWords.Number((int)Math.Round(fish));

    /// <summary>"163", "0.4": the fish expected lost.</summary>
    public string Expected => answer.ExpectedLoss.ToString(answer.ExpectedLoss < 9.5 ? "0.0" : "#,0", CultureInfo.InvariantCulture);

    /// <summary>The one thing to do before the bell.</summary>
    public string Do => answer.Do switch
    {
        BeforeTheBell.Nothing => say["Nothing more: lid on, and nobody pulls a plug."],
        BeforeTheBell.ReadNow => answer.Looked switch
        {
            { Temperature: true } => say["Look whether the water moves and bubbles, and tick it in today's reading."],
            { Flow: true } => say["Read the thermometer in the water and enter it."],
            _ => say["Read the tank now: thermometer, water moving, bubbles."],
        },
        BeforeTheBell.ThawCoil => say["Have an adult unplug the chiller alone, with pump and air on, until the ice is gone; read the tank again before the bell."],
        BeforeTheBell.CoolAgain => say["Get the water cold again before anybody leaves: sealed frozen bottles now, and ask the coordinator for a spare chiller."],
        BeforeTheBell.FlowAgain => say["Get the water moving before anybody leaves: an adult unplugs the pump, frees it and starts it; if it stays still, ask for a spare."],
        BeforeTheBell.SettleTrouble => say.Of("See to this first: {0}. What to do stands on the tank's page.", KindNames.Of(answer.Troubles[0].Kind).In(say.Language)),
        BeforeTheBell.HalfFeed => say["Feed half today and take out what is left after five minutes."],
        BeforeTheBell.LowerSetPoint => say.Of("Have an adult lower the set point by {0}, no more, and see that the chiller starts.", unit == TemperatureUnit.F ? "1 °F" : say["half a degree"]),
        BeforeTheBell.SpareAir => say["Give it air of its own: a second air stone from another outlet, and battery air that starts by itself when the power fails."],
        BeforeTheBell.AdultLooks => Looks,
        BeforeTheBell.MoveToHolding => say["Ask the coordinator for a watched holding tank and move the fish there before the break."],
    };

    private string Looks => answer.LookOn switch
    {
        [] => say["Have an adult with a key look at it today."],
        [var day] => say.Of("Name an adult with a key who looks at it on {0}.", Day(day)),
        [var first, var second] => say.Of("Name an adult with a key who looks at it on {0} and {1}.", Day(first), Day(second)),
        [var first, .., var last] => say.Of("Name an adult with a key who looks at it every other day from {0} to {1}.", Day(first), Day(last)),
    };

    private string Fault(LeaveFault fault) => fault switch
    {
        LeaveFault.Chiller => say["the chiller stops"],
        LeaveFault.Pump => say["the pump stops"],
        LeaveFault.Power => say["the power or the plug fails"],
    };

    private string Day(DateOnly day) => day.ToString("ddd d MMM", say.IsSpanish ? say.Culture : CultureInfo.InvariantCulture);

    private string Percent(double chance) => say.Of("{0} in 100", (100 * chance).ToString("0", CultureInfo.InvariantCulture));
}
