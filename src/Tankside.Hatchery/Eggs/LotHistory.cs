using Tankside.Science.Units;

namespace Tankside.Hatchery.Eggs;

/// <summary>What the hatchery hands over about the way its eggs have come so far. A number of units alone says nothing without a temperature.</summary>
public enum StartKnownBy
{
    /// <summary>The spawning days and one mean temperature since.</summary>
    MeanTemperature,

    /// <summary>A temperature for each day from the first spawning day.</summary>
    DailyTemperatures,

    /// <summary>Thermal units since fertilisation up to a day, with the mean temperature they were gathered at.</summary>
    ThermalUnits,

    /// <summary>Only the day on which half of the eggs showed eyes.</summary>
    EyedOn,
}

/// <summary>A lot's way before delivery, beyond its spawning days and its mean temperature.</summary>
/// <param name="DailyC">Daily mean temperatures from the first spawning day, °C; empty unless known by them.</param>
/// <param name="Units">Thermal units above 0 °C from fertilisation to the start of <paramref name="UnitsOn"/>.</param>
public sealed record LotHistory(StartKnownBy KnownBy, IReadOnlyList<double> DailyC, ThermalUnits? Units, DateOnly? UnitsOn, DateOnly? EyedOn)
{
    public static readonly LotHistory Mean = new(StartKnownBy.MeanTemperature, [], null, null, null);

    /// <summary>Reads what is stored of a lot; what is missing or no longer fits falls back to the mean temperature.</summary>
    public static LotHistory Of(EggLot lot) => lot.KnownBy switch
    {
        StartKnownBy.DailyTemperatures when lot.DailyC is { Length: > 0 } text && DailyText.TryRead(text, out var daily) =>
            new LotHistory(lot.KnownBy, daily, null, null, null),
        StartKnownBy.ThermalUnits when lot is { UnitsC: { } units, UnitsOn: { } on } => new LotHistory(lot.KnownBy, [], new ThermalUnits(units), on, null),
        StartKnownBy.EyedOn when lot.EyedOn is { } eyed => new LotHistory(lot.KnownBy, [], null, null, eyed),
        _ => Mean,
    };

    // Lists compare by their members: two readings of one lot are the same history.
    public bool Equals(LotHistory? other) => other is not null && KnownBy == other.KnownBy && DailyC.SequenceEqual(other.DailyC)
        && Units == other.Units && UnitsOn == other.UnitsOn && EyedOn == other.EyedOn;

    public override int GetHashCode() => HashCode.Combine(KnownBy, DailyC.Count, Units, UnitsOn, EyedOn);
}
