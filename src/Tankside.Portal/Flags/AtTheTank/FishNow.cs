using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Shell.Look;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>What the fish are doing, in words an eight-year-old reads. True to the model: a share of days, a week rather than a day.</summary>
public sealed record FishNow(Picture Picture, string Sentence, string Next)
{
    public static FishNow Of(TankView view)
    {
        if (view.Record.Lot is not { } lot || view.Development is not { } now)
        {
            return new FishNow(Picture.Egg, "Your eggs are not here yet.", "Keep the water cold and clear, and read it every day.");
        }

        var fish = SpeciesCodes.CommonName(lot.Species);
        return now.Stage switch
        {
            LifeStage.Egg => new FishNow(
                Picture.EyedEgg,
                now.Hatch is { } hatch ? $"{Done(hatch.Fraction)} days to hatching are done." : $"Your {fish} eggs are growing.",
                now.Hatch is { } h ? $"They should hatch {Between(h)}. Keep it dark and still." : "Keep it dark and still."),
            LifeStage.Alevin => new FishNow(
                Picture.Alevin,
                "Your fish have hatched. They live on their yolk bags now.",
                now.SwimUp is { } swim ? $"They should swim up {Between(swim)}. Do not feed them before that." : "Do not feed them yet."),
            LifeStage.Fry => new FishNow(
                Picture.Fry,
                "Your fish swim and eat.",
                "Feed only what is gone in five minutes. Look out for food on the bottom."),
        };
    }

    private static string Done(double fraction) => Math.Clamp((int)Math.Floor(fraction * 10), 0, 10) switch
    {
        0 => "The first of 10",
        10 => "Nearly all of the",
        var tenths => $"About {tenths} of 10",
    };

    private static string Between(StageForecast forecast) => forecast.Low80 == forecast.High80
        ? $"on {Day(forecast.Mid)}"
        : $"between {Day(forecast.Low80)} and {Day(forecast.High80)}";

    private static string Day(DateOnly day) => day.ToString("dddd d MMMM", CultureInfo.GetCultureInfo("en"));

    /// <summary>What a child should do at once about the worst trouble in the water: always an adult first. Null when the day can go on.</summary>
    public static string? TellNow(IReadOnlyList<Finding> findings, string language = "en") =>
        findings.Where(f => f.Urgency >= Urgency.Today && IsInTheWater(f.Kind))
            .OrderByDescending(f => f.Urgency).ThenByDescending(f => f.Hazard.ShareLost).FirstOrDefault() is { } worst
            ? FirstAid.ForClass(worst.Kind, language)
            : null;

    /// <summary>A class need not worry about dates, tallies and silence.</summary>
    private static bool IsInTheWater(FlagKind kind) =>
        kind is FlagKind.DieOff or FlagKind.Fungus || Dangers.Of(kind) is Danger.Heat or Danger.Cold or Danger.Air or Danger.Poison;
}
