using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell.Look;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags;

/// <summary>What the fish in a tank are doing and what comes next, as one true sentence with its dates. Intervals are those of 80%.</summary>
/// <param name="Next">"Alevins: swim-up between Tue 8 and Sat 12 December."</param>
/// <param name="Place">"About 8 of 10 days from hatching to swim-up are done."</param>
public sealed record StageWords(string Next, string Place, Picture Picture)
{
    public static StageWords Of(LotProfile lot, DevelopmentNow now, IReadOnlyList<TankDay> days, TimeWords time) => now.Stage switch
    {
        LifeStage.Egg => new(EggsNext(now, time), EggsPlace(now), Picture.EyedEgg),
        LifeStage.Alevin => Alevins(lot, now, time),
        LifeStage.Fry => new(FryNext(now, days, time), "Next comes their release, under the programme's permit.", Picture.Fry),
    };

    /// <summary>The day half were first reported hatched, else the model's.</summary>
    public static DateOnly? HatchedOn(DevelopmentNow now) => now.HalfHatchedOn ?? now.Hatch?.Mid;

    /// <summary>The day half were first reported swimming; null while nobody has.</summary>
    public static DateOnly? SeenSwimmingOn(IReadOnlyList<TankDay> days) => days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day;

    /// <summary>Why there is no date for a stage, in one sentence; null when there is one.</summary>
    public static string? WhyNoDate(LotProfile lot, DevelopmentNow now, Stage stage) =>
        (stage == Stage.Hatch ? now.Hatch : now.SwimUp) is not null ? null
        : !lot.TryFind(stage, out _, out var why) ? why
        : now.WhyNoForecast ?? "At this temperature development stands still.";

    private static string EggsNext(DevelopmentNow now, TimeWords time) => now.Hatch switch
    {
        null => "Eggs: nobody can say yet when they hatch.",
        { } hatch when now.HatchSeen => $"Hatching has begun: half should be out {time.Ahead(hatch.Low80, hatch.High80)}.",
        { } hatch when hatch.High80 < time.Today => $"Eggs: half should have hatched by {time.Day(hatch.High80)}, and nobody has reported it.",
        { } hatch => $"Eggs: hatch {time.Ahead(hatch.Low80, hatch.High80)}.",
    };

    private static string EggsPlace(DevelopmentNow now) => now.Hatch is { } hatch
        ? Tenths(hatch.Fraction, "to hatching")
        : now.WhyNoForecast ?? "";

    private static StageWords Alevins(LotProfile lot, DevelopmentNow now, TimeWords time)
    {
        var hatched = HatchedOn(now);
        if (now.SwimUp is not { } swimUp)
        {
            var since = hatched is { } day ? $"Alevins: hatched about {time.Day(day)}." : "Alevins.";
            return new(since, $"When they swim up nobody can say yet. {WhyNoDate(lot, now, Stage.SwimUp)}", Picture.Alevin);
        }

        var next = swimUp.High80 < time.Today
            ? $"Alevins: half should have been swimming by {time.Day(swimUp.High80)}, and nobody has reported it."
            : $"Alevins: swim-up {time.Ahead(swimUp.Low80, swimUp.High80)}.";
        var place = hatched is { } from && swimUp.Mid > from
            ? Tenths((time.Today.DayNumber - from.DayNumber) / (double)(swimUp.Mid.DayNumber - from.DayNumber), "from hatching to swim-up")
            : Tenths(swimUp.Fraction, "to swim-up");
        return new(next, now.HatchSeen ? place : $"{place} Nobody has reported the hatch: these are the model's days.", Picture.Alevin);
    }

    private static string FryNext(DevelopmentNow now, IReadOnlyList<TankDay> days, TimeWords time) =>
        (SeenSwimmingOn(days) ?? now.SwimUp?.Mid) is { } since
            ? $"Fry: swim-up was about {time.Day(since)}, so they need food now."
            : "Fry: they swim, so they need food now.";

    private static string Tenths(double share, string way) => (int)Math.Floor(10 * share) switch
    {
        < 1 => $"The first of 10 days {way} is not done yet.",
        < 10 and var done => $"About {done} of 10 days {way} are done.",
        _ => $"All the days {way} are done, by the model.",
    };
}
