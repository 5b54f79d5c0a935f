using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags;

/// <summary>Sentences on water tests, on what is seen in the water, and on readings that cannot be right.</summary>
public sealed partial class ReasonWords
{
    private string Oxygen(OxygenEvidence e)
    {
        if (e is not { MgL: { } oxygen, Percent: { } percent, Limit: { } limit })
        {
            return $"Fish gasp at the surface ({When(e.At)}) and nobody has measured the oxygen: more air first, then a test; {Fish}{Closing}.";
        }

        var earlier = e is { EarlierMgL: { } before, EarlierAt: { } at } ? $", {Number(before, "0.0#")} at {When(at)}" : "";
        var gasping = e.Gasping ? "; fish gasp" : "";
        return $"Oxygen {Number(oxygen, "0.0#")} mg/L at {When(e.At)} ({Number(percent, "0")}% of full{earlier}), under the {Number(limit, "0.0#")} mg/L limit for {Stage(e.Stage)}{gasping}{Lasts(e)}; {Fish}{Closing}.";
    }

    private string Lasts(OxygenEvidence e) => e.PassesAt is not { } at ? "; how long it lasts is not known"
        : at.High <= now ? $"; {Number(e.HoursLimit, "0.#")} mg/L is passed"
        : at.Low <= now ? $"; may have passed {Number(e.HoursLimit, "0.#")} mg/L already"
        : $"; passes {Number(e.HoursLimit, "0.#")} mg/L about {When(at.Mid)}, act by {When(at.Low)}";

    private string Nitrite(NitriteEvidence e)
    {
        var level = $"Nitrite {Number(e.MgL, "0.0##")} mg/L as N at {When(e.At)}, over the limit of {Number(e.Limit, "0.0#")}";
        var what = e is { BeforeMgL: { } before, BeforeAt: { } at } ? $" after {Number(before, "0.0##")} {When(at)}: two tests in a row"
            : e.TestAgain ? ": one high step of a kit, so test again before anything else"
            : ": far above, one test is enough";
        return $"{level}{what}; {Fish}{(e.TestAgain ? "" : Closing)}.";
    }

    private string Chlorine(ChlorineEvidence e, Hazard hazard)
    {
        var test = e is { MgL: { } chlorine, TestedAt: { } tested }
            ? $"total chlorine {Number(chlorine, "0.0##")} mg/L at {When(tested)}, over {Number(e.Limit, "0.0##")}" : null;
        var sign = e is { GaspingAt: { } gasping, ChangedAt: { } changed }
            ? $"fish gasp at {When(gasping)} after {(e.ChangedPercent is { } part ? $"a {Number(part, "0.#")}% water change" : "a water change")} at {When(changed)}" : null;
        var seen = string.Join(", and ", new[] { sign, test }.OfType<string>());
        var soon = hazard.HoursLeft is { } h ? $"; kills within about {Span(h.Low, h.High)}" : "";
        return $"{char.ToUpperInvariant(seen[0])}{seen[1..]}{soon}; {TapWater(e.Disinfectant)}; {Fish}{Closing}.";
    }

    /// <summary>Chlorine leaves with air; chloramine does not, and what is neutralised of it is left as ammonia.</summary>
    private static string TapWater(Disinfectant disinfectant) => disinfectant switch
    {
        Disinfectant.Chlorine => "the tap water carries chlorine: neutralise the whole tank now and give strong air, which drives it off",
        Disinfectant.Chloramine => "the tap water carries chloramine, which air does not drive off: neutralise the whole tank now, then test the ammonia it leaves",
        Disinfectant.None => "the school's water carries no disinfectant: ask about bleach, soap or spray",
        Disinfectant.Unknown => "chlorine or chloramine, nobody knows: neutralise the whole tank now, give strong air, then test ammonia",
    };

    private string Metals(MetalsEvidence e)
    {
        var tests = $"pH {Number(e.Ph, "0.0#")}, ammonia {Number(e.AmmoniaTotalMgL, "0.##")}{(e.NitriteMgL is { } nitrite ? $", nitrite {Number(nitrite, "0.##")}" : "")} mg/L as N";
        return $"{e.Dead} {Stage(e.Stage)} dead from {Day(e.FirstDay)} to {Day(e.LastDay)}, after {(e.AfterSwimUp ? "swim-up" : "hatch")} about {Day(e.BegunOn)}, while every water test is good ({tests}): could it be copper or zinc from a pipe, tap or can? {Sentence(Fish)}.";
    }

    private string Ph(PhEvidence e)
    {
        var low = e.Limit is { } limit ? $", under the limit of {Number(limit, "0.0#")}" : "";
        var fall = e is { FallPerWeek: { } pace, FromPh: { } from, FromAt: { } at }
            ? $", falling {Number(pace, "0.0#")} a week from {Number(from, "0.0#")} on {Day(calendar.Clock.Day(at))}" : "";
        return $"pH {Number(e.Ph, "0.0#")} at {When(e.At)}{low}{fall}: ask for the carbonate hardness; {Fish}.";
    }

    private string Fungus(FungusEvidence e)
    {
        var since = e.Since < e.At ? $", since {When(e.Since)}" : "";
        var picked = e.DeadLeft ? "; nobody says that dead ones were taken out" : e.DeadPicked is > 0 and { } dead ? $"; {Count(dead, "dead", plural: false)} taken out" : "";
        return $"White fluff at {When(e.At)}{since}; {Stage(e.Stage)}{picked}; {Fish}.";
    }

    private string Contradiction(ContradictionEvidence e) => e.Other switch
    {
        SaidFact.WaterFell when e is { OneWaterC: { } now, OtherWaterC: { } before } =>
            $"The chiller is said to be off, yet the water fell from {Degrees(before)} at {When(e.OtherAt)} to {Degrees(now)} at {When(e.OneAt)}: does it run after all, or was ice put in? {Sentence(Fish)}.",
        SaidFact.HatchNotDue => $"Said to be fed at {When(e.OneAt)}, but no egg can have hatched yet: was it fed, and has any hatched? {Sentence(Fish)}.",
        _ => $"{Sentence(Said(e.One))} ({When(e.OneAt)}) and {Said(e.Other)} ({When(e.OtherAt)}) cannot both be true: ask which it is; {Fish}.",
    };

    private static string Said(SaidFact fact) => fact switch
    {
        SaidFact.NoneHatched => "none hatched",
        SaidFact.MostHatched => "most or all hatched",
        SaidFact.SomeSwim => "some swim",
        SaidFact.DeadAlevins => "dead alevins",
        SaidFact.DeadFry => "dead fry",
        SaidFact.Fed => "fed",
        SaidFact.HatchNotDue => "no hatch due",
        SaidFact.ChillerOff => "chiller off",
        SaidFact.WaterFell => "water fell",
    };

    private static string Sentence(string words) => $"{char.ToUpperInvariant(words[0])}{words[1..]}";

    private string Stuck(StuckEvidence e) =>
        $"{Degrees(e.WaterC)} {e.Looks} times in a row since {Day(e.Since)}, read to {Step(e.Step)}: does the thermometer still move? In a glass of ice and water it has to show {Degrees(0)}; {Fish}.";

    private static string Step(ThermometerStep step) => step switch
    {
        ThermometerStep.Fine => "a tenth of a degree",
        ThermometerStep.HalfCelsius => "half a °C",
        ThermometerStep.WholeFahrenheit => "whole °F",
        ThermometerStep.WholeCelsius => "whole °C",
    };
}
