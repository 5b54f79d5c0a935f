using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Look;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags;

/// <summary>What the fish in a tank are doing and what comes next, as one true sentence with its dates. Intervals are those of 80%.</summary>
/// <param name="Next">"Alevins: swim-up between Tue 8 and Sat 12 December."</param>
/// <param name="Place">"About 8 of 10 days from hatching to swim-up are done."</param>
public sealed record StageWords(string Next, string Place, Picture Picture)
{
    /// <param name="names">What the programme calls the stages.</param>
    public static StageWords Of(LotProfile lot, DevelopmentNow now, IReadOnlyList<TankDay> days, TimeWords time, StageNames names)
    {
        var ours = Of(lot, now, days, time);
        return ours with { Next = names.In(ours.Next, time.Say.Language), Place = names.In(ours.Place, time.Say.Language) };
    }

    private static StageWords Of(LotProfile lot, DevelopmentNow now, IReadOnlyList<TankDay> days, TimeWords time) => now.Stage switch
    {
        LifeStage.Egg => new(EggsNext(now, time), EggsPlace(now, time), Picture.EyedEgg),
        LifeStage.Alevin => Alevins(lot, now, time),
        LifeStage.Fry => new(FryNext(now, days, time), time.Say["Next comes their release, under the programme's permit."], Picture.Fry),
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
        null => time.Say["Eggs: nobody can say yet when they hatch."],
        { } hatch when now.HatchSeen => time.Say.Of("Hatching has begun: half should be out {0}.", time.Ahead(hatch.Low80, hatch.High80)),
        { } hatch when hatch.High80 < time.Today => time.Say.Of("Eggs: half should have hatched by {0}, and nobody has reported it.", time.Day(hatch.High80)),
        { } hatch => time.Say.Of("Eggs: hatch {0}.", time.Ahead(hatch.Low80, hatch.High80)),
    };

    private static string EggsPlace(DevelopmentNow now, TimeWords time) => now.Hatch is { } hatch
        ? Tenths(hatch.Fraction, time.Say["to hatching"], time.Say)
        : time.Say.Told(now.WhyNoForecast ?? "");

    private static StageWords Alevins(LotProfile lot, DevelopmentNow now, TimeWords time)
    {
        var hatched = HatchedOn(now);
        if (now.SwimUp is not { } swimUp)
        {
            var since = hatched is { } day ? time.Say.Of("Alevins: hatched about {0}.", time.Day(day)) : time.Say["Alevins."];
            return new(since, $"{time.Say["When they swim up nobody can say yet."]} {time.Say.Told(WhyNoDate(lot, now, Stage.SwimUp) ?? "")}", Picture.Alevin);
        }

        var next = swimUp.High80 < time.Today
            ? time.Say.Of("Alevins: half should have been swimming by {0}, and nobody has reported it.", time.Day(swimUp.High80))
            : time.Say.Of("Alevins: swim-up {0}.", time.Ahead(swimUp.Low80, swimUp.High80));
        var place = hatched is { } from && swimUp.Mid > from
            ? Tenths((time.Today.DayNumber - from.DayNumber) / (double)(swimUp.Mid.DayNumber - from.DayNumber), time.Say["from hatching to swim-up"], time.Say)
            : Tenths(swimUp.Fraction, time.Say["to swim-up"], time.Say);
        return new(next, now.HatchSeen ? place : $"{place} {time.Say["Nobody has reported the hatch: these are the model's days."]}", Picture.Alevin);
    }

    private static string FryNext(DevelopmentNow now, IReadOnlyList<TankDay> days, TimeWords time) =>
        (SeenSwimmingOn(days) ?? now.SwimUp?.Mid) is { } since
            ? time.Say.Of("Fry: swim-up was about {0}, so they need food now.", time.Day(since))
            : time.Say["Fry: they swim, so they need food now."];

    private static string Tenths(double share, string way, Say say) => (int)Math.Floor(10 * share) switch
    {
        < 1 => say.Of("The first of 10 days {0} is not done yet.", way),
        < 10 and var done => say.Of("About {0} of 10 days {1} are done.", done, way),
        _ => say.Of("All the days {0} are done, by the model.", way),
    };
}
