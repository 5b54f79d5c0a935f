using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags;

/// <summary>The tanks of a key, in the order of their codes.</summary>
public sealed record TankListJson(IReadOnlyList<TankJson> Tanks);

/// <summary>A tank in short. Lot, species and stage are null before any eggs came.</summary>
public sealed record TankJson
{
    public required string Code { get; init; }

    public required string School { get; init; }

    public required string Classroom { get; init; }

    public required string? Lot { get; init; }

    public required string? Species { get; init; }

    /// <summary><c>egg</c>, <c>alevin</c> or <c>fry</c>.</summary>
    public required string? Stage { get; init; }

    /// <summary>About: what the ledger leaves in the tank.</summary>
    public required int Fish { get; init; }

    public required string? LastReadingAt { get; init; }

    public required double? LastWaterC { get; init; }

    /// <summary>Kinds of the open flags, the most urgent first.</summary>
    public required IReadOnlyList<string> OpenFlags { get; init; }

    public required double SetPointC { get; init; }

    public static TankJson Of(TankGlance glance) => new()
    {
        Code = glance.Code,
        School = glance.Place.School.Name,
        Classroom = glance.Place.Room.Name,
        Lot = glance.Lot?.Code,
        Species = glance.Lot is { } lot ? SpeciesCodes.CodeOf(lot.Species) : null,
        Stage = glance.Development is { } now ? NameOf(now.Stage) : null,
        Fish = glance.Fish,
        LastReadingAt = glance.LastAt is { } at ? glance.Place.Calendar.Clock.Iso(at) : null,
        LastWaterC = glance.LastWaterC,
        OpenFlags = [.. glance.Flags.Select(f => FlagNames.NameOf(f.Kind))],
        SetPointC = glance.Place.Tank.SetPointC,
    };

    public static string NameOf(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "egg",
        LifeStage.Alevin => "alevin",
        LifeStage.Fry => "fry",
    };
}

/// <summary>A tank's dates. Everything is null before any eggs came.</summary>
public sealed record ForecastJson
{
    public required string Tank { get; init; }

    public string? Lot { get; init; }

    public string? Species { get; init; }

    public string? Stage { get; init; }

    public int Fish { get; init; }

    public ThermalUnitsJson? ThermalUnits { get; init; }

    public StageForecastJson? Hatch { get; init; }

    public StageForecastJson? SwimUp { get; init; }

    /// <summary>Swim-up again: the days on which the fry must learn to eat.</summary>
    public StageForecastJson? FirstFeeding => SwimUp;

    /// <summary>Null when the tank is not warming, or never gets to its limit.</summary>
    public HoursToCriticalJson? HoursToCritical { get; init; }

    public string? WhyNoForecast { get; init; }

    public static ForecastJson Of(TankRecord record, DateTime now)
    {
        if (record.Lot is not { } lot)
        {
            return new ForecastJson { Tank = record.Tank.Code, WhyNoForecast = "No eggs have come to this tank." };
        }

        var situation = new Situation(record, now);
        var development = situation.Development;
        return new ForecastJson
        {
            Tank = record.Tank.Code,
            Lot = lot.Code,
            Species = SpeciesCodes.CodeOf(lot.Species),
            Stage = TankJson.NameOf(development.Stage),
            Fish = record.Fish,
            ThermalUnits = new ThermalUnitsJson(
                Math.Round(development.ThermalUnits.CelsiusDays, 1), Math.Round(development.ThermalUnits.FahrenheitDays, 1), development.Since),
            Hatch = StageForecastJson.Of(development.Hatch),
            SwimUp = StageForecastJson.Of(development.SwimUp),
            HoursToCritical = HoursToCriticalJson.Of(Assessment.Assess(record, now), now),
            WhyNoForecast = StageWords.WhyNoDate(lot, development, Science.Eggs.Stage.Hatch)
                ?? StageWords.WhyNoDate(lot, development, Science.Eggs.Stage.SwimUp),
        };
    }
}

/// <summary>Warmth above freezing, gathered since the middle spawning day.</summary>
public sealed record ThermalUnitsJson(double CelsiusDays, double FahrenheitDays, DateOnly Since);

/// <summary>When half of the fish reach a stage, or reached it: local days with their 80% and 95% intervals.</summary>
/// <param name="Fraction">Share of the way to the stage at the start of today.</param>
/// <param name="InRange">Whether the water lies inside the range of the model's source.</param>
/// <param name="Parts">What the interval is made of: standard deviations, days.</param>
public sealed record StageForecastJson(
    DateOnly Mid, DateOnly Low80, DateOnly High80, DateOnly Low95, DateOnly High95, double Fraction, bool InRange,
    string Model, string Source, IReadOnlyList<ForecastPartJson> Parts)
{
    public static StageForecastJson? Of(StageForecast? forecast) => forecast is { } f
        ? new StageForecastJson(
            f.Mid, f.Low80, f.High80, f.Low95, f.High95, Math.Round(f.Fraction, 4), f.InRange, f.Model.Name, f.Model.Source,
            [.. f.Parts.Select(p => new ForecastPartJson(NameOf(p.Name), Math.Round(p.SdDays, 2)))])
        : null;

    private static string NameOf(ForecastPartName name) => name switch
    {
        ForecastPartName.Model => "model",
        ForecastPartName.Start => "start",
        ForecastPartName.Spawning => "spawning",
        ForecastPartName.Thermometer => "thermometer",
        ForecastPartName.Gaps => "gaps",
        ForecastPartName.Future => "future",
    };
}

/// <summary>One cause's share in the error of a date.</summary>
public sealed record ForecastPartJson(string Name, double SdDays);

/// <summary>Hours from now until the water passes its limit, 80% interval; zeros when it may have.</summary>
public sealed record HoursToCriticalJson(double Low, double Mid, double High, double LimitC)
{
    public static HoursToCriticalJson? Of(IReadOnlyList<Finding> findings, DateTime now)
    {
        var warming = findings.FirstOrDefault(f => f.Kind == FlagKind.WarmingFast);
        return warming?.Evidence is WarmingEvidence evidence && HoursJson.Of(warming.Hazard.HoursLeftAt(now)) is { } hours
            ? new HoursToCriticalJson(hours.Low, hours.Mid, hours.High, Math.Round(evidence.Limit, 1))
            : null;
    }
}
