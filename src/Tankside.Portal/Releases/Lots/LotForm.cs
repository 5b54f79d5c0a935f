using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Portal.Releases.Lots;

/// <summary>A lot as the hatchery's paper tells it, as typed.</summary>
public sealed class LotForm
{
    public Guid Id { get; set; }

    public string? Code { get; set; }

    public string? Species { get; set; }

    public string? Strain { get; set; }

    public string? Ploidy { get; set; }

    public string? Source { get; set; }

    public string? SpawnedFrom { get; set; }

    public string? SpawnedTo { get; set; }

    public string? Unit { get; set; }

    public string? MeanTemperature { get; set; }

    public string? KnownBy { get; set; }

    public string? Daily { get; set; }

    public string? Units { get; set; }

    public string? UnitsOn { get; set; }

    public string? EyedOn { get; set; }

    public string? ShockedOn { get; set; }

    public string? PickedOn { get; set; }

    public string? HealthCertificate { get; set; }

    public string? Disinfection { get; set; }

    public string? Note { get; set; }

    /// <summary>Ticked when units and days do not fit and somebody says that both are right.</summary>
    public bool Sure { get; set; }

    public int Version { get; set; }

    /// <summary>The form of a lot that is there already, temperatures on the programme's scale.</summary>
    public static LotForm Of(EggLot lot, TemperatureUnit unit)
    {
        string Degrees(double c) => WaterTemperature.FromC(c, unit).ToString("0.##", CultureInfo.InvariantCulture);
        static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return new LotForm
        {
            Id = lot.Id,
            Code = lot.Code,
            Species = lot.Species.ToString(),
            Strain = lot.Strain,
            Ploidy = lot.Ploidy,
            Source = lot.Source,
            SpawnedFrom = Day(lot.FertilisedFrom),
            SpawnedTo = Day(lot.FertilisedTo),
            Unit = unit.ToString(),
            MeanTemperature = Degrees(lot.HatcheryMeanC),
            KnownBy = lot.KnownBy.ToString(),
            Daily = lot.DailyC is { } text && DailyText.TryRead(text, out var daily) ? string.Join(' ', daily.Select(Degrees)) : null,
            Units = lot.UnitsC is { } units ? (unit == TemperatureUnit.F ? new ThermalUnits(units).FahrenheitDays : units).ToString("0.#", CultureInfo.InvariantCulture) : null,
            UnitsOn = Day(lot.UnitsOn),
            EyedOn = Day(lot.EyedOn),
            ShockedOn = Day(lot.ShockedOn),
            PickedOn = Day(lot.PickedOn),
            HealthCertificate = lot.HealthCertificate,
            Disinfection = lot.Disinfection,
            Note = lot.Note,
            Version = lot.Version,
        };
    }
}

/// <summary>Reads the form into a lot and tells each field what is wrong with it.</summary>
public sealed class LotReader(LotForm form, TypedFields typed, DateOnly today)
{
    /// <summary>Units and spawning days may differ by this share before somebody is asked (judgement).</summary>
    private const double UnitsOff = 0.25;

    /// <summary>Longest spawning of one lot, days (common practice, no source).</summary>
    private const int LongestSpawning = 30;

    private readonly TemperatureUnit unit = typed.Choice<TemperatureUnit>(nameof(LotForm.Unit), form.Unit, "Choose °F or °C.");

    /// <summary>Fills in <paramref name="lot"/>; what was read counts only when all was good.</summary>
    public void Into(EggLot lot)
    {
        lot.Code = typed.Name(nameof(form.Code), form.Code, "Give the lot a short name, such as RB1.");
        lot.Species = typed.Choice<Species>(nameof(form.Species), form.Species, "Choose the species.");
        lot.Strain = typed.Text(nameof(form.Strain), form.Strain);
        lot.Ploidy = typed.Text(nameof(form.Ploidy), form.Ploidy);
        lot.Source = typed.Text(nameof(form.Source), form.Source);
        lot.FertilisedFrom = typed.Day(nameof(form.SpawnedFrom), form.SpawnedFrom);
        lot.FertilisedTo = string.IsNullOrWhiteSpace(form.SpawnedTo) ? lot.FertilisedFrom : typed.Day(nameof(form.SpawnedTo), form.SpawnedTo);
        lot.HatcheryMeanC = typed.WaterC(nameof(form.MeanTemperature), form.MeanTemperature, unit) ?? Missing(nameof(form.MeanTemperature), "Ask the hatchery for the water's mean temperature since spawning.");
        lot.KnownBy = typed.Choice<StartKnownBy>(nameof(form.KnownBy), form.KnownBy, "Choose what is known of the way so far.");
        lot.EyedOn = OptionalDay(nameof(form.EyedOn), form.EyedOn);
        lot.ShockedOn = OptionalDay(nameof(form.ShockedOn), form.ShockedOn);
        lot.PickedOn = OptionalDay(nameof(form.PickedOn), form.PickedOn);
        lot.HealthCertificate = typed.Text(nameof(form.HealthCertificate), form.HealthCertificate);
        lot.Disinfection = typed.Text(nameof(form.Disinfection), form.Disinfection);
        lot.Note = typed.Text(nameof(form.Note), form.Note);
        lot.DailyC = Daily();
        (lot.UnitsC, lot.UnitsTyped, lot.UnitsOn) = Units();
        CheckDays(lot);
        if (lot.KnownBy == StartKnownBy.ThermalUnits && typed.AllGood)
        {
            CheckUnits(lot);
        }
    }

    private double Missing(string field, string why)
    {
        typed.Refuse(field, why);
        return 0;
    }

    private DateOnly? OptionalDay(string field, string? text) => string.IsNullOrWhiteSpace(text) ? null : typed.Day(field, text);

    private string? Daily()
    {
        var asked = form.KnownBy == nameof(StartKnownBy.DailyTemperatures);
        var words = (form.Daily ?? "").Split([' ', '\t', '\r', '\n', ';'], StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
        {
            if (asked)
            {
                typed.Refuse(nameof(form.Daily), "Type one temperature a day, the first spawning day first, with a space or a new line between.");
            }

            return null;
        }

        if (words.Length > DailyText.MostDays)
        {
            typed.Refuse(nameof(form.Daily), $"At most {DailyText.MostDays} days fit here; {words.Length} were typed.");
            return null;
        }

        var daily = new List<double>();
        for (var i = 0; i < words.Length; i++)
        {
            var celsius = WaterTemperature.TryRead(words[i], out var value, out var own) ? WaterTemperature.ToC(value, own ?? unit) : double.NaN;
            if (celsius is not (>= -1 and <= 22))
            {
                typed.Refuse(nameof(form.Daily), $"“{words[i]}”, day {i + 1}, is no water temperature of a hatchery in °{unit}. Look at the number and at the scale.");
                return null;
            }

            daily.Add(celsius);
        }

        return DailyText.Write(daily);
    }

    private (double?, string?, DateOnly?) Units()
    {
        if (form.KnownBy != nameof(StartKnownBy.ThermalUnits) && string.IsNullOrWhiteSpace(form.Units))
        {
            return (null, null, null);
        }

        var on = typed.Day(nameof(form.UnitsOn), form.UnitsOn);
        if (!WaterTemperature.TryRead(form.Units, out var value, out _) || value is not (> 0 and < 3000))
        {
            typed.Refuse(nameof(form.Units), $"Type the units as a number of {Scale}, such as {(unit == TemperatureUnit.F ? "380" : "210")}.");
            return (null, null, null);
        }

        var celsiusDays = unit == TemperatureUnit.F ? ThermalUnits.FromFahrenheitDays(value).CelsiusDays : value;
        return (Math.Round(celsiusDays, 3), $"{value.ToString("0.#", CultureInfo.InvariantCulture)} {Scale} since spawning", on);
    }

    private string Scale => unit == TemperatureUnit.F ? "°F-days above 32 °F" : "°C-days";

    private void CheckDays(EggLot lot)
    {
        if (lot.FertilisedTo < lot.FertilisedFrom)
        {
            typed.Refuse(nameof(form.SpawnedTo), "The last spawning day is before the first.");
        }
        else if (lot.FertilisedTo > lot.FertilisedFrom.AddDays(LongestSpawning))
        {
            typed.Refuse(nameof(form.SpawnedTo), $"Eggs spawned over more than {LongestSpawning} days are several lots: they hatch weeks apart.");
        }

        if (lot.FertilisedFrom > today)
        {
            typed.Refuse(nameof(form.SpawnedFrom), "This day is still to come. Enter the lot when its eggs are spawned.");
        }

        foreach (var (field, day, name) in new[] { (nameof(form.EyedOn), lot.EyedOn, "eyed"), (nameof(form.ShockedOn), lot.ShockedOn, "shocked"), (nameof(form.PickedOn), lot.PickedOn, "picked"), (nameof(form.UnitsOn), lot.UnitsOn, "summed up") })
        {
            if (day < lot.FertilisedFrom)
            {
                typed.Refuse(field, $"They cannot be {name} before they were spawned.");
            }
        }

        if (lot.KnownBy == StartKnownBy.EyedOn && lot.EyedOn is null)
        {
            typed.Refuse(nameof(form.EyedOn), "Give the day on which half of them showed eyes.");
        }
    }

    /// <summary>Units in another unit or from another start are off by a factor: then somebody looks.</summary>
    private void CheckUnits(EggLot lot)
    {
        var middle = lot.FertilisedFrom.AddDays((lot.FertilisedTo.DayNumber - lot.FertilisedFrom.DayNumber) / 2);
        var expected = (lot.UnitsOn!.Value.DayNumber - middle.DayNumber) * lot.HatcheryMeanC;
        if (!form.Sure && expected > 0 && Math.Abs((lot.UnitsC!.Value / expected) - 1) > UnitsOff)
        {
            var (said, would) = (new ThermalUnits(lot.UnitsC.Value), new ThermalUnits(expected));
            typed.Refuse(nameof(form.Sure), string.Create(CultureInfo.InvariantCulture,
                $"{said.CelsiusDays:0} °C-days ({said.FahrenheitDays:0} °F-days), but the spawning days and the mean temperature give about {would.CelsiusDays:0} °C-days ({would.FahrenheitDays:0} °F-days). Another unit, or counted from another day? If all is right, tick here."));
        }
    }
}
