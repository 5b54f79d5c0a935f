using CsCheck;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Science.Tests.Water;

public class OxygenFallTests
{
    private const string Hours = "hours_to_hypoxia_computed.csv";
    private const string Demand = "oxygen_demand_fry_computed.csv";

    public static TheoryData<int> HourRows => Rows.Indices(Hours, _ => true);

    public static TheoryData<int> DemandRows => Rows.Indices(Demand, _ => true);

    // The worked estimates: 10 °C, one atmosphere, nine tenths full, surface = length x width in inches of the nominal vessel.
    [Theory]
    [MemberData(nameof(HourRows))]
    public void Every_worked_estimate_is_met(int index)
    {
        var row = Rows.Of(Hours)[index];
        var gallons = row.Number("tank_gal");
        var inches = gallons switch { 10 => 20 * 10, 29 => 30 * 12, 55 => 48 * 13, _ => throw new InvalidOperationException() };
        var saturation = Oxygen.SaturationAtOneAtmosphere(new Celsius(10));
        foreach (var column in row.Keys.Where(name => name.StartsWith("h_to_", StringComparison.Ordinal)))
        {
            var parts = column["h_to_".Length..].Split("_k");
            var levels = new OxygenLevels(saturation, saturation, new MilligramsPerLitre(Rows.Parse(parts[0])));
            var hours = Oxygen.HoursUntil(
                Litres.FromUsGallons(0.9 * gallons), inches * 0.0254 * 0.0254, levels,
                Rows.Parse(parts[1]), row.Number("demand_mg_h"));
            if (row[column] == "never") Assert.Null(hours);
            else Rows.Near(row.Number(column), hours!.Value, 0.051 + (0.005 * hours.Value), column + " " + row["lot"]);
        }
    }

    [Theory]
    [MemberData(nameof(DemandRows))]
    public void Resting_demand_of_fry_lies_among_the_species_curves(int index)
    {
        var row = Rows.Of(Demand)[index];
        var grams = row.Number("W_g");
        var perFish = OxygenDemand.PerFish(FishStage.Fry, new Celsius(row.Number("T_C")), grams);
        var restingPerKg = perFish.Low / 1.2 / grams * 1000;
        var curves = row.Keys.Except(["W_g", "T_C"]).Select(column => row.Number(column)).ToArray();
        Assert.InRange(restingPerKg, curves.Min(), curves.Max());
    }

    [Fact]
    public void A_hundred_and_fifty_one_gram_fry_in_ten_gallons_have_one_to_four_hours()
    {
        var band = Oxygen.HoursUntil(Situation(FishStage.Fry, 150) with { Start = new(11.3), Limit = new(5) });
        Assert.InRange(band.Low!.Value, 1, 2);
        Assert.InRange(band.Mid!.Value, 2, 3.5);
        Assert.InRange(band.High!.Value, 3, 4.5);
    }

    [Fact]
    public void Two_hundred_eggs_have_more_than_a_day_and_mostly_for_ever()
    {
        var band = Oxygen.HoursUntil(Situation(FishStage.Egg, 200));
        Assert.True(band.Low is null or > 24);
        Assert.Null(band.Mid);
        Assert.Null(band.High);
    }

    [Fact]
    public void Water_that_is_low_already_has_no_hours_left() =>
        Assert.Equal(new HoursBand(0, 0, 0), Oxygen.HoursUntil(Situation(FishStage.Fry, 10) with { Start = new(4.9) }));

    [Fact]
    public void Without_fish_the_limit_is_never_reached() =>
        Assert.Equal(new HoursBand(null, null, null), Oxygen.HoursUntil(Situation(FishStage.Alevin, 0)));

    [Fact]
    public void More_fish_smaller_water_and_warmer_water_leave_less_time() => Gen.Int[50, 400].Sample(fish =>
    {
        var here = Oxygen.HoursUntil(Situation(FishStage.Fry, fish)).Mid;
        var crowded = Oxygen.HoursUntil(Situation(FishStage.Fry, fish * 2)).Mid;
        var roomy = Oxygen.HoursUntil(Situation(FishStage.Fry, fish) with { Volume = Litres.FromUsGallons(55) }).Mid;
        var warm = Oxygen.HoursUntil(Situation(FishStage.Fry, fish) with { Water = new(14) }).Mid;
        Assert.True(crowded < here && (roomy is null || roomy > here) && warm < here);
    });

    [Fact]
    public void Still_water_without_surface_falls_in_a_straight_line()
    {
        var levels = new OxygenLevels(new(11), new(10), new(5));
        Assert.Equal(5 * 40 / 20.0, Oxygen.HoursUntil(new Litres(40), 0, levels, 1, 20));
        Assert.Null(Oxygen.HoursUntil(new Litres(40), 0, levels, 1, 0));
    }

    [Theory]
    [InlineData(37.85, 0.129)]
    [InlineData(208.2, 0.403)]
    [InlineData(91.165, 0.20775)]
    public void The_usual_surface_follows_the_volume(double litres, double m2) =>
        Rows.Near(m2, OxygenDemand.SurfaceFor(new Litres(litres)), 0.0005, "surface");

    [Fact]
    public void Outside_the_usual_sizes_the_surface_grows_with_two_thirds_of_the_volume() =>
        Assert.Equal(4, OxygenDemand.SurfaceFor(new Litres(2400)) / OxygenDemand.SurfaceFor(new Litres(300)), 9);

    [Fact]
    public void Impossible_water_and_weightless_fry_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Oxygen.HoursUntil(Situation(FishStage.Egg, 9) with { Volume = new(0) }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Oxygen.HoursUntil(Situation(FishStage.Fry, 10) with { MeanGrams = 0 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Oxygen.HoursUntil(Situation(FishStage.Fry, -1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Oxygen.HoursUntil(Situation(FishStage.Fry, 1) with { SurfaceM2 = -1 }));
    }

    private static OxygenSituation Situation(FishStage stage, int fish) => new()
    {
        Volume = Litres.FromUsGallons(10),
        Water = new Celsius(10),
        Pressure = new Kilopascals(101.325),
        Stage = stage,
        Fish = fish,
        MeanGrams = 1,
        Start = new MilligramsPerLitre(10.5),
        Limit = new MilligramsPerLitre(5),
    };
}
