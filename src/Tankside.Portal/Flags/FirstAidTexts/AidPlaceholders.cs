using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>The figures that a programme's own first aid may name in braces, worked out for the tank when it is said. They are the same words in both languages.</summary>
public sealed class AidPlaceholders(LifeStage stage, AidTank tank, Evidence? evidence)
{
    private const string Tank = "tank", SetPoint = "set point", WaterNow = "water now", Warmest = "warmest", Coldest = "coldest", Volume = "volume",
        Part = "part of the water", SmallPart = "small part of the water", Cooling = "cooling";

    /// <summary>Each with what stands there.</summary>
    public static IReadOnlyList<(string Name, string Means)> All { get; } =
    [
        (Tank, "the tank’s code"),
        (SetPoint, "what its chiller is set to"),
        (WaterNow, "the temperature that raised the flag"),
        (Warmest, "the warmest that is still well at its stage"),
        (Coldest, "the coldest that is still well at its stage"),
        (Volume, "all its water"),
        (Part, "as much water as is changed at once"),
        (SmallPart, "as much as is changed at once in an acid tank"),
        (Cooling, "the most it may be cooled in an hour"),
    ];

    public static IReadOnlyList<string> Names { get; } = [.. All.Select(p => p.Name)];

    public Bilingual In(Bilingual text) => new(Braces.Fill(text.En, word => Value(word)?.En), Braces.Fill(text.Es, word => Value(word)?.Es));

    private Bilingual? Value(string word) => word.ToLowerInvariant() switch
    {
        Tank => tank.Code is { } code ? new(code, code) : new("the tank", "el tanque"),
        SetPoint => AidFigures.Degrees(tank.SetPointC),
        WaterNow => WaterC is { } water ? AidFigures.Degrees(water) : new("what the thermometer says", "lo que marca el termómetro"),
        Warmest => AidFigures.Degrees(StageBand.Of(stage, tank.Limits).HighC),
        Coldest => AidFigures.Degrees(StageBand.Of(stage, tank.Limits).LowC),
        Volume => AidFigures.Volume(tank.Litres),
        Part => PartOf(Limits.AidChange),
        SmallPart => PartOf(Limits.AidChangeAcid),
        Cooling => AidFigures.Step(tank.Limits[Limits.AidCooling]),
        _ => null,
    };

    private double? WaterC => evidence switch
    {
        TemperatureEvidence e => e.WaterC,
        WarmingEvidence e => e.WaterC,
        RefillEvidence e => e.WaterC,
        IceEvidence e => e.WaterC,
        ChillerEvidence e => e.WaterC,
        _ => null,
    };

    private Bilingual PartOf(Setting share)
    {
        var (percent, amount) = (AidFigures.Percent(tank.Limits[share]), AidFigures.Volume(tank.Litres * tank.Limits[share]));
        return new($"{percent.En} ({amount.En})", $"{percent.Es} ({amount.Es})");
    }
}
