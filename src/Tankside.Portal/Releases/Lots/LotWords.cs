using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Releases.Lots;

/// <summary>Lots and promises in words.</summary>
public static class LotWords
{
    public static string Word(StartKnownBy known) => known switch
    {
        StartKnownBy.MeanTemperature => "spawning days and one mean temperature",
        StartKnownBy.DailyTemperatures => "a temperature for each day",
        StartKnownBy.ThermalUnits => "thermal units up to a day",
        StartKnownBy.EyedOn => "only the day they showed eyes",
    };

    public static string Word(AllotmentRefusal why) => why switch
    {
        AllotmentRefusal.Negative => "type how many eggs, 0 for none.",
        AllotmentRefusal.NoLot => "choose the lot that the eggs are to come from.",
        AllotmentRefusal.Closed => "this tank is closed; it gets no eggs.",
        AllotmentRefusal.OtherLotIsIn => "eggs of another lot have come to it. One lot a tank, so that trouble of a lot can be seen.",
        AllotmentRefusal.SchoolIsShut => "its school is shut on that day.",
    };

    public static string Spawned(EggLot lot) => lot.FertilisedTo == lot.FertilisedFrom
        ? SeasonAtHand.Day(lot.FertilisedFrom)
        : $"{SeasonAtHand.Day(lot.FertilisedFrom)} to {SeasonAtHand.Day(lot.FertilisedTo)}";

    /// <summary>Thermal units never stand without their unit and their start.</summary>
    public static string Units(DevelopmentNow stands) => string.Create(
        CultureInfo.InvariantCulture, $"{stands.ThermalUnits.CelsiusDays:0} °C-days, {stands.ThermalUnits.FahrenheitDays:0} °F-days above 32 °F, since {stands.Since:d MMM yyyy}");

    /// <summary>How far the eggs would be, had they stayed.</summary>
    public static string Stand(DevelopmentNow stands) => stands.Hatch switch
    {
        null => stands.WhyNoForecast ?? "No date can be told.",
        { Fraction: >= 1 } => "By the days and temperatures told they have hatched.",
        { } hatch => string.Create(
            CultureInfo.InvariantCulture,
            $"{100 * hatch.Fraction:0}% of the way to half hatch; kept at the hatchery they would hatch {hatch.Low80:d MMM} to {hatch.High80:d MMM} (four times in five)."),
    };

    public static string Change(ToldChange told)
    {
        var change = told.Change;
        static string Promise(int eggs, string? lot, DateOnly? day) => eggs == 0 ? "nothing"
            : $"{Figures.Of(eggs)} of {lot ?? "a lot taken away"}{(day is { } on ? $" for {SeasonAtHand.Day(on)}" : "")}";
        var sum = change.EggsAfter - change.EggsBefore;
        return $"{Promise(change.EggsBefore, told.LotBefore, change.DayBefore)} → {Promise(change.EggsAfter, told.LotAfter, change.DayAfter)}{(sum == 0 ? "" : $" ({(sum > 0 ? "+" : "−")}{Figures.Of(Math.Abs(sum))})")}";
    }

    public static string Name(Species species) => SpeciesCodes.CommonName(species);
}
