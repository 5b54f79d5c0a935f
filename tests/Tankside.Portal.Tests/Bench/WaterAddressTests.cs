namespace Tankside.Portal.Tests.Bench;

public class WaterAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    // Standard Methods 4500-O, one atmosphere.
    [InlineData("waterC=0", 14.621, 0.006)]
    [InlineData("waterC=10", 11.288, 0.0015)]
    [InlineData("waterC=20", 9.092, 0.0015)]
    // An instrument maker's table: 10 °C at 700 mmHg (933.3 hPa) and 650 mmHg (866.6 hPa).
    [InlineData("waterC=10&pressureHPa=933.3", 10.4, 0.11)]
    [InlineData("waterC=10&pressureHPa=866.6", 9.7, 0.11)]
    // The same two laws worked by hand: 12 °C at 5,000 ft.
    [InlineData("waterC=12&elevationM=1524", 8.94, 0.006)]
    public async Task Oxygen_is_that_of_the_tables(string query, double mgL, double within) =>
        Assert.InRange((await portal.AnswerAsync("oxygen?" + query)).Number("saturationMgL"), mgL - within, mgL + within);

    [Fact]
    public async Task Without_a_place_it_is_sea_level() => Assert.Equal(
        (await portal.AnswerAsync("oxygen?waterC=10&elevationM=0")).Number("saturationMgL"),
        (await portal.AnswerAsync("oxygen?waterC=10")).Number("saturationMgL"));

    [Theory]
    [InlineData("", "waterC")]
    [InlineData("waterC=10&elevationM=100&pressureHPa=1000", "elevationM,pressureHPa")]
    [InlineData("waterC=41", "waterC")]
    [InlineData("waterC=10&pressureHPa=101.3", "pressureHPa")]
    [InlineData("waterC=ten&elevationM=1,5", "elevationM,waterC")]
    public async Task A_badly_asked_oxygen_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("oxygen?" + query)).Keys));

    [Theory]
    // Emerson and others 1975 as quoted: shares at 25 °C; at 10 °C, pH 7 is 0.18% and pH 8 1.82% in printed tables (within 1-3%).
    [InlineData(8.0, 25, 0.0537, 0.00027)]
    [InlineData(7.5, 25, 0.0177, 0.0001)]
    [InlineData(6.5, 25, 0.0018, 0.0001)]
    [InlineData(8.0, 10, 0.0182, 0.0002)]
    [InlineData(7.0, 10, 0.00186, 0.00005)]
    public async Task The_poisonous_share_is_that_of_the_tables(double ph, double waterC, double share, double within)
    {
        var answer = await portal.AnswerAsync(FormattableString.Invariant($"ammonia?totalMgL=2&ph={ph}&waterC={waterC}"));

        Assert.InRange(answer.Number("unionizedFraction"), share - within, share + within);
        Assert.Equal(2 * answer.Number("unionizedFraction"), answer.Number("unionizedNMgL"), 6);
        // 17.031 / 14.007: NH3 weighs more than its nitrogen.
        Assert.Equal(1.216, answer.Number("unionizedNH3MgL") / answer.Number("unionizedNMgL"), 3);
    }

    [Theory]
    [InlineData("", "ph,totalMgL,waterC")]
    [InlineData("totalMgL=-1&ph=15&waterC=50", "ph,totalMgL,waterC")]
    [InlineData("totalMgL=1&ph=7,2&waterC=10", "ph")]
    public async Task A_badly_asked_ammonia_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("ammonia?" + query)).Keys));

    [Fact]
    public async Task Seven_milligrams_of_thiosulfate_for_each_of_chlorine_and_the_ammonia_of_chloramine()
    {
        // Handbooks' 7:1; 14.007 / 70.906 = 0.1975 mg NH3-N a mg of Cl2.
        var answer = await portal.AnswerAsync("dechlorination?litres=100&chlorineMgL=2");

        Assert.Equal(1400, answer.Number("thiosulfatePentahydrateMg"), 6);
        Assert.Equal(0.395, answer.Number("ammoniaNFreedMgL"), 3);
        Assert.Contains("label", answer.Text("caution"), StringComparison.Ordinal);
        Assert.Contains("agency", answer.Text("caution"), StringComparison.Ordinal);
        Assert.Contains("chloramine", answer.Text("caution"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "chlorineMgL,litres")]
    [InlineData("litres=0&chlorineMgL=-1", "chlorineMgL,litres")]
    public async Task A_badly_asked_dechlorination_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("dechlorination?" + query)).Keys));
}
