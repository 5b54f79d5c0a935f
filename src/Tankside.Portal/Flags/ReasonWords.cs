using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags;

/// <summary>
/// Words a finding as one sentence with a clock time, made from the very numbers that put it where it stands in the round. A page, a file
/// and the API say the same.
/// </summary>
public sealed partial class ReasonWords(SchoolCalendar calendar, int fish, DateTime now, TemperatureUnit unit = TemperatureUnit.F, StageNames? names = null)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public string Of(Finding finding) => (names ?? StageNames.Standard).In(Sentence(finding), "en");

    private string Sentence(Finding finding) => finding.Evidence switch
    {
        TemperatureEvidence e when finding.Kind == FlagKind.Warm =>
            $"{Degrees(e.WaterC)} at {When(e.At)}, {Since(e)}over the {Degrees(e.Limit)} limit for {Stage(e.Stage)}; {Fish}{Closing}.",
        TemperatureEvidence e =>
            $"{Degrees(e.WaterC)} at {When(e.At)}, {Since(e)}under the {Degrees(e.Limit)} limit for {Stage(e.Stage)}; {Fish}.",
        SaidWarmEvidence e =>
            $"Said to feel warm at {When(e.At)} and no temperature read since{(e is { LastWaterC: { } w, LastAt: { } at } ? $" ({Degrees(w)} {When(at)})" : "")}: ask for the number; {Fish}{Closing}.",
        LeakEvidence e => $"Water on the floor since {When(e.At)}: pump and air may run dry; {Stage(e.Stage)}; {Fish}{Closing}.",
        CloudyEvidence e =>
            $"Cloudy water {(e.Since < e.At ? $"from {When(e.Since)} to {When(e.At)}" : $"at {When(e.At)}")} and no ammonia test since: ask for one, and for food or dead left lying; {Fish}.",
        RefillEvidence e =>
            $"{Degrees(e.WaterC)} at {When(e.At)} after {Degrees(e.FromC)} at {When(e.FromAt)}, with {Number(e.ChangedPercent, "0")}% of the water changed: ask how cold the refill was and where it came from; {Stage(e.Stage)}; {Fish}.",
        WarmingEvidence e => Warming(e),
        IceEvidence e => Ice(e),
        ChillerEvidence e => Chiller(e),
        FlowEvidence e => Flow(e, finding.Hazard),
        SilenceEvidence e => Silence(e),
        PowerCutEvidence e => PowerCut(e),
        TroubleSaidEvidence e => TroubleSaid(e),
        ShutEvidence e => Shut(e),
        LossEvidence { Rising: true } e =>
            $"A slow rise: {e.Dead} dead in {Days(e.Days)} to {Day(e.LastDay)} where about {Number(e.Expected, "0.#")} would be usual; {Stage(e.Stage)}; {Fish} left{Closing}.",
        LossEvidence e =>
            $"{e.Dead} dead in {Days(e.Days)} to {Day(e.LastDay)} where about {Number(e.Expected, "0.#")} would be usual; {Stage(e.Stage)}; {Fish} left{Closing}.",
        AmmoniaEvidence { UnionizedN: { } poison, Ph: { } ph } e =>
            $"Poisonous ammonia {Number(poison, "0.000")} mg/L as N (total {Number(e.TotalMgL, "0.##")} at pH {Number(ph, "0.0#")} and {Degrees(e.WaterC)}, {When(e.At)}), over the limit of {Number(e.Limit, "0.000")}; {Fish}.",
        AmmoniaEvidence e =>
            $"Total ammonia {Number(e.TotalMgL, "0.##")} mg/L as N at {When(e.At)} and no pH within a week: ask for the pH, it decides whether this harms; {Fish}.",
        HatchEvidence e =>
            $"No hatch {(e.SaidNone ? "yet" : "reported")}: half was due about {Day(e.Mid)}, at the latest {Day(e.High95)}, {Days(e.DaysOver)} ago; {Fish}.",
        OxygenEvidence e => Oxygen(e),
        NitriteEvidence e => Nitrite(e),
        ChlorineEvidence e => Chlorine(e, finding.Hazard),
        MetalsEvidence e => Metals(e),
        PhEvidence e => Ph(e),
        FungusEvidence e => Fungus(e),
        ContradictionEvidence e => Contradiction(e),
        StuckEvidence e => Stuck(e),
        SharedCauseEvidence e => Shared(e, finding.StandsOn),
        EarlyHatchEvidence e => EarlyHatch(e),
        FeedingEvidence e => Feeding(e),
        ReadinessEvidence e => Readiness(e),
        TallyEvidence e => Tally(e),
        ReportEvidence e => $"The release of {Number(e.Fish, "#,0")} fish on {Day(e.ReleasedOn)} under permit {e.Permit} is not reported as sent; it was due by {Day(e.DueOn)}.",
        _ => throw new ArgumentOutOfRangeException(nameof(finding), finding.Evidence.GetType().Name, "evidence without words"),
    };

    private string Warming(WarmingEvidence e)
    {
        var rise = $"{Degrees(e.WaterC)} at {When(e.At)} and rising {Rate(e.PerHour)} an hour{(e.OwnSlope ? "" : " by its size")}; {Stage(e.Stage)}";
        var passes = e.PassesAt is not { } at ? $"; settles near {Degrees(e.SettlesAtC)}"
            : at.Low <= now && at.High <= now ? $"; should have passed {Degrees(e.Limit)} by {When(at.High)}"
            : at.Low <= now ? $"; may have passed {Degrees(e.Limit)} already"
            : $"; passes {Degrees(e.Limit)} about {When(at.Mid)}, act by {When(at.Low)}";
        return $"{rise}{passes}{DiagnosisWords.EndOf(e)}; {Fish}{Closing}.";
    }

    private string Ice(IceEvidence e) => e.Seen
        ? $"Ice on the coil at {When(e.At)}{(e.WaterC is { } w ? $", water {Degrees(w)}" : "")}: it will warm once the ice stops the flow{DiagnosisWords.EndOf(e)}; {Fish}{Closing}."
        : $"{Degrees(e.WaterC!.Value)} at {When(e.At)} with the chiller set to {Degrees(e.SetPointC)}: the coil is probably iced{DiagnosisWords.EndOf(e)}; {Fish}{Closing}.";

    private string Chiller(ChillerEvidence e)
    {
        var what = e.AllStopped ? "Chiller and pump are both off" : "The chiller is said to be off";
        var water = e.WaterC is { } w
            ? w < e.SetPointC + 1 ? $", water still {Degrees(w)}" : $", water {Degrees(w)} with the set point at {Degrees(e.SetPointC)}"
            : ", and no temperature is known";

        // With the pump off too it does not rest: it has no power.
        var asked = !e.AllStopped && e.WaterC < e.SetPointC + 1 ? ": is it resting or broken?" : "";
        var passes = e is not { PassesAt: { } at, Limit: { } limit } ? ""
            : at.High <= now ? $"should have passed {Degrees(limit)} by {When(at.High)}"
            : at.Low <= now ? $"may have passed {Degrees(limit)} already"
            : $"could pass {Degrees(limit)} from {When(at.Low)}";
        var start = $"{what} since {When(e.At)}{water}{asked}";
        return $"{Continued(start, $"{(passes.Length > 0 ? $"; {passes}" : "")}{DiagnosisWords.EndOf(e)}; {Stage(e.Stage)}; {Fish}{Closing}")}.";
    }

    /// <summary>After a question mark a new sentence begins.</summary>
    private static string Continued(string start, string rest) => start.EndsWith('?') ? $"{start} {Sentence(rest[2..])}" : start + rest;

    private string Flow(FlowEvidence e, Hazard hazard)
    {
        var what = (e.AllStopped, e.StillWater, e.NoBubbles) switch
        {
            (true, _, _) => "Everything stopped together",
            (_, true, true) => "The water stands still and there are no bubbles",
            (_, true, _) => "The water stands still",
            _ => "No bubbles",
        };
        var left = hazard.HoursLeft is { } h ? Air(h, hazard.From) : "";
        return $"{what} since {When(e.At)}; {Stage(e.Stage)}{left}; {Fish}{Closing}.";
    }

    private string Air(Band hours, DateTime from) =>
        from.AddHours(hours.High) <= now ? $"; the air is probably used up since {When(from.AddHours(hours.Mid))}"
        : from.AddHours(hours.Low) <= now ? $"; the air may be used up since {When(from.AddHours(hours.Low))}"
        : $"; air for about {Span(hours.Low, hours.High)}, so until {When(from.AddHours(hours.Low))} at least";

    private string Silence(SilenceEvidence e)
    {
        var last = e.LastAt is { } at ? $"last reading {When(at)}{(e.LastWaterC is { } w ? $" ({Degrees(w)})" : "")}" : "no reading since the eggs came";
        return e.AfterBreakDays > 0 && e.MissedDays == 0
            ? $"First school day after {Days(e.AfterBreakDays)} closed and nothing read by {When(now)}; {last}; {Fish}."
            : $"Silent for {Count(e.MissedDays, "school day")}{(e.LastWasFlagged ? " after a bad reading" : "")}; {last}; {Fish}{Closing}.";
    }

    private string Since(TemperatureEvidence e) => e.Since < e.At ? $"since {When(e.Since)} " : "";

    private string Fish => $"about {Count(fish, "fish", plural: false)}";

    /// <summary>The bell is the last chance of the day: say when it rings, while it matters.</summary>
    private string Closing => calendar.WindowAtOrAfter(now) is { } window
        ? window.Opens <= now ? $"; school closes {Clock(window.Closes)}" : $"; school opens {When(window.Opens)}"
        : "";

    private string Degrees(double celsius) => unit == TemperatureUnit.F
        ? $"{Number(WaterTemperature.FromC(celsius, unit), "0.#")} °F ({Number(celsius, "0.0")} °C)"
        : $"{Number(celsius, "0.0")} °C";

    private string Rate(double celsius) => unit == TemperatureUnit.F ? $"{Number(celsius * 1.8, "0.0")} °F" : $"{Number(celsius, "0.0")} °C";

    /// <summary>"13:40" today, "Tue 13:40" within the week, "3 Feb 13:40" beyond.</summary>
    private string When(DateTime utc)
    {
        var local = calendar.Clock.Local(utc);
        var days = DateOnly.FromDateTime(local).DayNumber - calendar.Clock.Day(now).DayNumber;
        return days switch
        {
            0 => Clock(utc),
            > -6 and < 6 => local.ToString("ddd HH:mm", Plain),
            _ => local.ToString("d MMM HH:mm", Plain),
        };
    }

    private string Clock(DateTime utc) => calendar.Clock.Local(utc).ToString("HH:mm", Plain);

    private static string Day(DateOnly day) => day.ToString("ddd d MMM", Plain);

    private static string Days(int count) => Count(count, "day");

    private static string Count(int count, string noun, bool plural = true) =>
        $"{count.ToString("#,0", Plain)} {noun}{(plural && count != 1 ? "s" : "")}";

    private static string Span(double lowHours, double highHours) => highHours < 1.5
        ? $"{Number(lowHours * 60, "0")} to {Number(highHours * 60, "0")} minutes"
        : $"{Number(lowHours, lowHours < 10 ? "0.#" : "0")} to {Number(highHours, highHours < 10 ? "0.#" : "0")} hours";

    private static string Number(double value, string format) => value.ToString(format, Plain);

    public static string Stage(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "eggs",
        LifeStage.Alevin => "alevins",
        LifeStage.Fry => "fry",
    };
}
