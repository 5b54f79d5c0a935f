using CsCheck;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Heat;

public class WarmingTests
{
    private const string File = "warming_computed.csv";

    private static readonly Celsius Room = new(21);

    public static TheoryData<int> All => Rows.Indices(File, _ => true);

    public static TheoryData<int> Modelled => Rows.Indices(File, row => JacketOf(row) is not null);

    // The computed table: room 21 °C, water 10 °C, 15 W pump; UA and tau from the row itself.
    [Theory]
    [MemberData(nameof(All))]
    public void Hours_and_ice_follow_the_computed_table(int index)
    {
        var row = Rows.Of(File)[index];
        var (ua, tau) = (row.Number("UA_W_K"), row.Number("tau_h"));
        var settles = new Celsius(21 + (15 / ua));
        foreach (var limit in new[] { 13, 15, 18 })
        {
            var hours = Warming.HoursTo(new(limit), new(10), settles, tau, 0)!.Value.Mid;
            Rows.Near(row.Number(FormattableString.Invariant($"h_to_{limit}C")), hours, 0.051 + (0.01 * hours), row["case"]);
        }

        var ice = row.Number("ice_kg_per_h_to_hold");
        Rows.Near(ice, Warming.IceKgPerHour(ua, settles, new(10)), 0.0051 + (0.005 * ice), row["case"]);
    }

    [Theory]
    [MemberData(nameof(Modelled))]
    public void Volume_and_jacket_alone_give_the_tables_hours(int index)
    {
        var row = Rows.Of(File)[index];
        var litres = Litres.FromUsGallons(Rows.Parse(row["tank_gal"].TrimEnd('H', 'B')));
        var (tau, sd) = Warming.TimeConstant(litres, JacketOf(row)!.Value);
        var settles = Warming.SettlesAt(Room, litres, JacketOf(row)!.Value);
        Assert.Equal((row.Number("tau_h"), Warming.TauLogSd), (Math.Round(tau, 9), sd));
        Rows.Near(row.Number("UA_W_K"), Warming.HeatFlowPerKelvin(litres, tau), 0.01 + (0.01 * row.Number("UA_W_K")), "UA");
        foreach (var limit in new[] { 13, 15, 18 })
        {
            var hours = Warming.HoursTo(new(limit), new(10), settles, tau, sd)!.Value;
            var told = row.Number(FormattableString.Invariant($"h_to_{limit}C"));
            Rows.Near(told, hours.Mid, 0.051 + (0.01 * hours.Mid), row["case"]);
            Assert.True(hours.Low < hours.Mid && hours.Mid < hours.High);
        }
    }

    // An independent, slower hand calculation: room 70 °F, water 52 °F, hours to 60 and 65 °F.
    [Theory]
    [InlineData(10, Jacket.None, 60, 5)]
    [InlineData(10, Jacket.None, 65, 10)]
    [InlineData(20, Jacket.None, 60, 7)]
    [InlineData(30, Jacket.None, 60, 9)]
    [InlineData(55, Jacket.None, 60, 11)]
    [InlineData(55, Jacket.None, 65, 22)]
    [InlineData(10, Jacket.Foam, 60, 10)]
    [InlineData(55, Jacket.Foam, 60, 31)]
    public void A_slower_hand_calculation_lies_inside_the_80_percent_band(
        double gallons, Jacket jacket, double limitF, double told)
    {
        var litres = Litres.FromUsGallons(gallons);
        var (tau, sd) = Warming.TimeConstant(litres, jacket);
        var settles = Warming.SettlesAt(Celsius.FromFahrenheit(70), litres, jacket);
        var band = Warming.HoursTo(Celsius.FromFahrenheit(limitF), Celsius.FromFahrenheit(52), settles, tau, sd)!.Value;
        Assert.InRange(told, band.Low, band.High);
    }

    [Fact]
    public void Hours_to_undoes_the_temperature_after_those_hours() =>
        Gen.Select(Gen.Double[4, 12], Gen.Double[0.1, 40], Gen.Double[5, 80]).Sample((start, hours, tau) =>
        {
            var water = Warming.MostAfter(new(start), hours, new(22), tau);
            Rows.Near(hours, Warming.HoursTo(water, new(start), new(22), tau, 0.3)!.Value.Mid, 1e-6, "hours");
        });

    [Fact]
    public void A_limit_above_the_room_is_never_reached_and_one_already_passed_takes_no_time()
    {
        Assert.Null(Warming.HoursTo(new(22), new(10), new(22), 10, 0.3));
        Assert.Equal(new Band(0, 0, 0), Warming.HoursTo(new(12), new(12), new(22), 10, 0.3));
        Assert.Equal(new Band(0, 0, 0), Warming.HoursTo(new(25), new(26), new(22), 10, 0.3));
    }

    [Fact]
    public void Bigger_or_jacketed_water_warms_more_slowly() => Gen.Double[5, 900].Sample(litres =>
    {
        var here = Warming.TimeConstant(new(litres), Jacket.None).MidHours;
        Assert.True(Warming.TimeConstant(new(litres * 1.2), Jacket.None).MidHours > here);
        Assert.True(Warming.TimeConstant(new(litres), Jacket.Foam).MidHours > here);
    });

    [Theory]
    [InlineData(38, Warming.TauLogSd)]
    [InlineData(208, Warming.TauLogSd)]
    [InlineData(30, Warming.TauLogSdExtrapolated)]
    [InlineData(400, Warming.TauLogSdExtrapolated)]
    public void Outside_the_computed_volumes_the_spread_is_wider(double litres, double sd) =>
        Assert.Equal(sd, Warming.TimeConstant(new(litres), Jacket.None).LogSd);

    // Observed failures of 55-gallon vessels ran at 1.5-2 °F an hour.
    [Fact]
    public void An_observed_two_degrees_F_an_hour_passes_as_credible()
    {
        var litres = Litres.FromUsGallons(55);
        var settles = Warming.SettlesAt(Room, litres, Jacket.None);
        var fastest = Warming.MostAfter(Celsius.FromFahrenheit(52), 1, settles, Warming.FastestCredibleTau(litres, Jacket.None));
        Assert.True(fastest > Celsius.FromFahrenheit(54));
        Assert.True(fastest < Celsius.FromFahrenheit(58));
    }

    [Fact]
    public void Ice_is_not_needed_in_a_cold_room_and_nonsense_is_refused()
    {
        Assert.Equal(0, Warming.IceKgPerHour(10, new(8), new(10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.IceKgPerHour(-1, new(20), new(10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.IceKgPerHour(10, new(20), new(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.TimeConstant(new(0), Jacket.None));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.HoursTo(new(15), new(10), new(22), 0, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.HoursTo(new(15), new(10), new(double.NaN), 10, 0.3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Warming.MostAfter(new(10), -1, new(22), 10));
    }

    private static Jacket? JacketOf(IReadOnlyDictionary<string, string> row) => row["case"] switch
    {
        "bare glass, dry film" => Jacket.None,
        "1 in XPS with 50% leakage" => Jacket.Foam,
        _ => null,
    };
}
