using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Reckoned;

/// <summary>The rule behind each kind of flag in one sentence, and the subject under which its numbers stand with their sources (docs/rules.md has all of it).</summary>
public static class RuleSentences
{
    /// <param name="Rule">When it is raised.</param>
    /// <param name="Subject">The slug of a <see cref="Numbers.NumberGroup"/>.</param>
    public sealed record Entry(string Rule, string Subject);

    public static Entry Of(FlagKind kind) => kind switch
    {
        FlagKind.Warm => new("The newest temperature is at or over the limit of the stage, or somebody says it feels warm and nobody has read a number since.", "warm-and-cold"),
        FlagKind.Cold => new("The newest temperature is at or under the limit of the stage and no iced coil explains it, or the water fell by a step at a water change.", "warm-and-cold"),
        FlagKind.IcedCoil => new("Ice is reported, or the water is far colder than the chiller aims for.", "warm-and-cold"),
        FlagKind.WarmingFast => new("The water rose by a step since the last reading, is above the set point, and reaches the limit within the horizon: T(t) = R - (R - T0) exp(-t/τ), room R, time constant τ from the tank's size and jacket or its own two readings.", "warming"),
        FlagKind.ChillerFault => new("The newest word on the chiller is that it does not run; above the set point the hours are counted from the newest temperature.", "warming"),
        FlagKind.PumpFault => new("The newest word is that the water stands still, that there are no bubbles, or that water is on the floor; hours by the oxygen that the water holds and the fish use.", "oxygen"),
        FlagKind.LowOxygen => new("The newest test is under the limit of the stage and under nine tenths of what the water can hold at its temperature and height, or fish gasp and nobody has tested since.", "oxygen"),
        FlagKind.Ammonia => new("The un-ionised part of the total ammonia, total / (1 + 10^(pKa - pH)) with the pKa of the water's temperature, is over its limit.", "ammonia-and-nitrite"),
        FlagKind.Nitrite => new("The newest test is over the limit; one high step asks for a second test, two in a row or one far above are acted on.", "ammonia-and-nitrite"),
        FlagKind.Chlorine => new("Any total chlorine over the limit, or fish that gasp within a day of a water change.", "chlorine-and-metals"),
        FlagKind.Metals => new("Deaths that begin shortly after hatch or at swim-up while every water test of the week is good: a question, never a verdict.", "chlorine-and-metals"),
        FlagKind.PhSag => new("pH under the limit, or surely falling: the median of all slopes between the days' readings.", "ph"),
        FlagKind.DieOff => new("More dead in two days than the tank's own past and its lot's siblings explain (chance of as many or more if nothing were wrong), or a cumulative sum of them that crosses its interval.", "deaths"),
        FlagKind.Fungus => new("The newest word on white fluff is yes; worse while no dead are picked.", "deaths"),
        FlagKind.LateHatch => new("Today is past the late end of the 95% interval of hatch, and no hatch is reported.", "hatch-and-feeding"),
        FlagKind.EarlyHatch => new("The first hatch was seen before the early end of the 95% interval, as it stood that day.", "hatch-and-feeding"),
        FlagKind.FeedingNearBreak => new("The chance is over a half that swim-up falls into a break or the school days before one.", "hatch-and-feeding"),
        FlagKind.NotReady => new("Eggs are due within days and the tank is unread, off its set point, or at it for too short a time.", "hatch-and-feeding"),
        FlagKind.Silent => new("School days without a reading by that school's own calendar; one is enough after a bad reading or a break. Its danger is the rate of faults over the hours nobody looked.", "silence"),
        FlagKind.Contradictory => new("Two facts of one look that cannot both be true.", "doubt"),
        FlagKind.StuckThermometer => new("Too many equal readings half a day or more apart, by how finely the thermometer is read.", "doubt"),
        FlagKind.Tally => new("More left than ever came, or more is missing than counting errs by.", "deaths"),
        FlagKind.ReportLate => new("A release is past the day on which its report was due, and nobody has said that it was sent.", "eggs-and-releases"),
        FlagKind.SharedCause => new("Trouble is crowded into the tanks of one lot, run, area, water or chiller batch more than chance explains: binomial, and Fisher's exact test, adjusted by Benjamini and Hochberg.", "in-common"),
    };

    /// <summary>The rule to a reader.</summary>
    public static string Said(FlagKind kind, Say say) => say.IsSpanish ? RuleSentencesSpanish.Of(kind) : Of(kind).Rule;

    public static string PlaceSaid(Say say) => say.IsSpanish ? RuleSentencesSpanish.Place : Place;

    /// <summary>How a tank gets its place in the round.</summary>
    public const string Place = "Fish saved by a call: the loss until somebody could next act if it is not called, less the loss if it is. Each danger has a log-normal time until the loss and a share lost then; different dangers combine as N (1 - Π(1 - share)).";
}
