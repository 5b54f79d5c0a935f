using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.Releases;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Reckoned;

/// <summary>What the numbers on a tank's page are made of, from the very values that the page shows.</summary>
public static class TankNumbers
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public static Opening Dates(OurTankNow now, LotProfile lot, DevelopmentNow development, Say say)
    {
        var water = now.Record.Days.Where(d => d.MeanC is not null && d.Day >= lot.DeliveredOn && d.Day < now.Time.Today).Select(d => d.MeanC!.Value).ToList();
        var past = Math.Max(0, now.Time.Today.DayNumber - lot.DeliveredOn.DayNumber);
        return new Opening(
            Known(
                (say["Spawned"], now.Time.Stretch(lot.FertilisedFrom, lot.FertilisedTo)),
                (say["Water before delivery"], Before(lot, now, say)),
                (say["Eggs came"], now.Time.Day(lot.DeliveredOn)),
                (say["Days since with a temperature"], say.Of("{0} of {1}", water.Count, past)),
                (say["Their mean"], water.Count == 0 ? null : now.Scale.Both(water.Average())),
                (say["Days still to come, taken at"], now.Record.Plan is null ? now.Scale.Both(now.Place.Tank.SetPointC) : say["the steps of the set-point plan"]),
                (say["Way to hatch"], Way(development.Hatch)),
                (say["Way to swim-up"], Way(development.SwimUp)),
                (say["Moved by hatches seen in the lot, days"], development.SwimUp is { LearnedDays: not 0 and var days } ? days.ToString("+0.0;-0.0", Plain) : null)),
            say["Each day adds 1 / D to the way, D being the days from spawning that the model takes at that day’s water; half are there when it is all done. Days that nobody read lie between their neighbours. Warmth above freezing is only summed up: no date comes from it."],
            $"{string.Join("; ", new[] { development.Hatch, development.SwimUp }.OfType<StageForecast>().Select(f => $"{f.Model.Name}, {f.Model.Source}").Distinct())}; docs/science/development.md");

        static string? Way(StageForecast? forecast) => forecast is null ? null : $"{(forecast.Fraction * 100).ToString("0", Plain)}%";
    }

    public static Opening Leaving(LeftTank left, OurTankNow now, Say say)
    {
        var (answer, clock) = (left.Answer, new ClockWords(left.Place.Calendar.Clock, now.At, say));
        var safe = left.Record.Limits[Limits.Leaving.Safe].ToString("0.##", Plain);
        return new Opening(
            Known(
                (say["The bell"], clock.When(answer.Stretch.Bell)),
                (say["Somebody can act again"], clock.When(answer.ActsAt)),
                (say["Last look"], answer.Looked.At is { } at ? now.Time.When(at) : say["never looked at"]),
                (say["Water as last read"], now.Scale.Both(answer.Worst.StartC)),
                (say["Limit of the stage"], answer.Worst.LimitC is { } limit ? now.Scale.Both(limit) : null),
                (say["Troubles that are open"], Figures.Of(answer.Troubles.Count)),
                (say["Chance that something stops meanwhile"], Percent(answer.FaultChance)),
                (say["Lost if the worst of it comes"], Percent(answer.Worst.ShareLost)),
                (say["Fish"], Figures.Of(answer.Fish)),
                (say["Fish expected lost"], left.WordsAt(now.At, say).Expected)),
            say.Of("Fish expected lost = fish × (1 − product of (1 − share)) over a fault while nobody looks, troubles that are open, a hatch or first food in the closed days, and food left lying. Safe: known, no trouble open, and at most {0} expected lost.", safe),
            $"docs/rules.md, Safe to leave?; docs/science/warming.md; docs/science/oxygen.md. Safe up to {safe} fish: {Limits.Leaving.Safe.Source}",
            "leaving");
    }

    public static Opening Feeding(FeedingPlan plan, OurTankNow now, Say say)
    {
        var first = plan.Weeks[0];
        var (fish, grams, percent) = (Figures.Of(now.Record.Fish), first.Size.Grams.ToString("0.00", Plain), first.PercentADay?.ToString("0.0", Plain));
        return new Opening(
            Known(
                (plan.Seen ? say["Swim-up, seen"] : say["Swim-up, expected"], now.Time.Day(plan.SwimUp)),
                (say["Reckoned for"], now.Time.Day(first.Day)),
                (say["Water that day"], now.Scale.Both(first.WaterC)),
                (say["Length"], say.Of("{0} in|inches", first.Size.LengthIn.ToString("0.0", Plain))),
                (say["Weight each"], $"{grams} g"),
                (say["Food, % of weight"], percent),
                (say["Fish"], fish)),
            percent is null
                ? say["Food a day = fish × weight each × percent of weight. The chart has no percentage for this water."]
                : say.Of("Food a day = fish × weight each × percent of weight: {0} × {1} g × {2}%.", fish, grams, percent),
            "food: Leitritz and Lewis 1980; length by warmth since swim-up: Dwyer and others; weight: condition factor of Piper and others 1982; docs/science/feeding.md");
    }

    public static Opening FishLeft(OurTankNow now, Say say)
    {
        var b = now.Balance;
        return new Opening(
            Known(
                (say["Came in"], Figures.Of(b.In)),
                (say["Died, moved out, sampled or released"], Figures.Of(b.Out)),
                (say["Left by these lines"], Figures.Of(b.In - b.Out)),
                (say["Last count of the living"], now.Record.Ledger?.CountedAt is { } at ? now.Time.When(at) : say["not counted yet"]),
                (say["Still in the tank"], Figures.Of(b.StillInTank)),
                (say["Not explained"], Figures.Of(b.Unaccounted))),
            say["What came, less what the ledger says went. Once the living were counted it is that count, less what went since; what the two do not explain stays visible as unaccounted. A closed tank holds none."],
            "the fish ledger of this tank; docs/totals.md");
    }

    public static Opening NotKnown(NotKnown known, OurTankNow now, Say say) => new(
        Known(
            (say["Eggs came"], now.Record.Lot is { } lot ? now.Time.Day(lot.DeliveredOn) : null),
            (say["Days with a look"], Figures.Of(now.Record.Days.Count)),
            (say["Longest gap"], say.Of("{0} from {1}|gap", WeekendWords.Hours(known.Longest, say), now.Time.When(known.LongestFrom))),
            (say["Since the last look"], now.Record.Fish > 0 ? WeekendWords.Hours(known.Now, say) : null),
            (say["Mean age of what was known"], WeekendWords.Hours(known.Average, say))),
        say["Over a gap of g hours the age of what is known grows from 0 to g, which adds g²/2; the mean is the sum of squared gaps over twice the hours."],
        "mean age under inspection, a textbook renewal argument; docs/rules.md, Hours not known");

    public static Opening Expected(OurTankNow now, Say say) => new(
        Known(
            (say["Dead in the lot’s other tanks"], Figures.Of(now.Record.Siblings.Deaths)),
            (say["Their fish times days"], now.Record.Siblings.FishDays.ToString("#,0", Plain)),
            (say["Fish here now"], Figures.Of(now.Record.Fish))),
        say["Expected on a day = the others’ dead ÷ their fish times days × the fish alive here at the start of that day."],
        "a plain rate of the lot; what raises a call stands in docs/science/losses.md, Die-off",
        "deaths");

    public static Opening SafeWater(LifeStage stage, OurTankNow now, Say say)
    {
        var (low, high) = Band(stage);
        return new Opening(
            Known(
                (say["Looked at as cold from"], now.Scale.Both(now.Record.Limits[low])),
                (say["Looked at as warm from"], now.Scale.Both(now.Record.Limits[high]))),
            say["The band lies between the two limits of the stage, as this programme has set them."],
            $"cold: {low.Source}; warm: {high.Source}; docs/rules.md",
            "warm-and-cold");
    }

    /// <summary>The limits between which the water of a stage is drawn as safe.</summary>
    public static (Setting Low, Setting High) Band(LifeStage stage) =>
        stage == LifeStage.Fry ? (Limits.ColdLookFry, Limits.WarmLookFry) : (Limits.ColdLookEgg, Limits.WarmLookEgg);

    private static string Before(LotProfile lot, OurTankNow now, Say say) => lot.History switch
    {
        { KnownBy: StartKnownBy.DailyTemperatures } h => say.Of("{0} daily temperatures", h.DailyC.Count),
        { KnownBy: StartKnownBy.ThermalUnits, Units: { } units, UnitsOn: { } on } => say.Of("{0} until {1}|units", now.Scale.Both(units), now.Time.Day(on)),
        { KnownBy: StartKnownBy.EyedOn, EyedOn: { } eyed } => say.Of("half showed eyes on {0}", now.Time.Day(eyed)),
        _ => say.Of("{0} on average", now.Scale.Both(lot.HatcheryMeanC)),
    };

    /// <summary>What is not known is left out.</summary>
    private static IReadOnlyList<(string, string)> Known(params (string Name, string? Value)[] inputs) =>
        [.. inputs.Where(i => i.Value is not null).Select(i => (i.Name, i.Value!))];

    private static string Percent(double share) => $"{(100 * share).ToString("0.##", Plain)}%";
}
