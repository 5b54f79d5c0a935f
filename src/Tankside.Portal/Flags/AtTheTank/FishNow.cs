using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Look;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>What the fish are doing, in words an eight-year-old reads. True to the model: a share of days, a week rather than a day.</summary>
public sealed record FishNow(Picture Picture, string Sentence, string Next)
{
    public static FishNow Of(TankView view, ClassWords words)
    {
        if (view.Record.Lot is not { } lot || view.Development is not { } now)
        {
            return new FishNow(Picture.Egg, words["fish.waiting"], words["fish.waiting.next"]);
        }

        return now.Stage switch
        {
            LifeStage.Egg => new FishNow(
                Picture.EyedEgg,
                now.Hatch is { } hatch ? Done(hatch.Fraction, words) : words.Of("fish.egg.growing", words.Fish(lot.Species)),
                now.Hatch is { } h ? words.Of("fish.egg.date", Between(h, words)) : words["fish.egg.dark"]),
            LifeStage.Alevin => new FishNow(
                Picture.Alevin,
                words["fish.alevin"],
                now.SwimUp is { } swim ? words.Of("fish.alevin.date", Between(swim, words)) : words["fish.alevin.unfed"]),
            LifeStage.Fry => new FishNow(Picture.Fry, words["fish.fry"], words["fish.fry.feed"]),
        };
    }

    private static string Done(double fraction, ClassWords words) => Math.Clamp((int)Math.Floor(fraction * 10), 0, 10) switch
    {
        0 => words["fish.egg.first"],
        10 => words["fish.egg.nearly"],
        var tenths => words.Of("fish.egg.tenths", tenths),
    };

    private static string Between(StageForecast forecast, ClassWords words) => forecast.Low80 == forecast.High80
        ? words.Of("on", words.Day(forecast.Mid))
        : words.Of("between", words.Day(forecast.Low80), words.Day(forecast.High80));

    /// <summary>What a child should do at once about the worst trouble in the water: always an adult first. Null when the day can go on.</summary>
    public static string? TellNow(IReadOnlyList<Finding> findings, OwnTexts texts, string language) =>
        findings.Where(f => f.Urgency >= Urgency.Today && ClassLines.IsTold(f.Kind))
            .OrderByDescending(f => f.Urgency).ThenByDescending(f => f.Hazard.ShareLost).FirstOrDefault() is { } worst
            ? FirstAid.ForClass(worst.Kind, texts, language)
            : null;
}
