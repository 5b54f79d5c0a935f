namespace Tankside.Portal.Tests.Bench;

public class DevelopmentAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    // Leitritz and Lewis 1976: brook trout, 50 °F.
    [InlineData("species=brook-trout&stage=hatch&meanC=10", 44, 0.001)]
    // Beacham and Murray 1990, model 4, table A.2 evaluated by hand; odd-year pinks when no line is given.
    [InlineData("species=pink-salmon&stage=hatch&meanC=8", 75.23, 0.006)]
    [InlineData("species=pink-salmon&line=odd&stage=swim-up&meanC=8", 122.16, 0.006)]
    [InlineData("species=pink-salmon&line=even&stage=hatch&meanC=8", 77.52, 0.006)]
    [InlineData("species=chinook-salmon&stage=swim-up&meanC=8", 120.86, 0.006)]
    // Pennsylvania Fish and Boat Commission leaflet, 31 days at 50 °F; the curve is within 15%.
    [InlineData("species=Rainbow-Trout&stage=hatch&meanC=10.0", 31, 4.6)]
    public async Task Days_are_those_of_the_source(string query, double days, double within) =>
        Assert.InRange((await portal.AnswerAsync("development?" + query)).Number("days"), days - within, days + within);

    [Fact]
    public async Task Daily_temperatures_are_summed_and_the_last_goes_on()
    {
        // Thirty days at 5 °C, then 10 °C: k + (1 - k / D(5)) D(10) with the curve of Beacham and Murray 1990.
        var days = string.Join(',', Enumerable.Repeat("5", 30).Append("10"));

        var answer = await portal.AnswerAsync($"development?species=coho-salmon&stage=hatch&temperatures={days}");

        Assert.InRange(answer.Number("days"), 60.585, 60.595);
        Assert.True(answer.GetProperty("inRange").GetBoolean());
    }

    [Fact]
    public async Task Days_are_given_to_the_thousandth_and_inside_their_interval()
    {
        var answer = await portal.AnswerAsync("development?species=rainbow-trout&stage=hatch&meanC=9.3");

        var days = answer.Number("days");
        Assert.Equal(Math.Round(days, 3), days);
        Assert.NotEqual(Math.Round(days), days);
        // 80%: days x exp(±1.2816 x 0.08), the spread that this project measured for the rainbow curve.
        Assert.Equal(Math.Exp(1.2815515655 * 0.08), answer.Number("high") / days, 3);
        Assert.Equal(Math.Exp(-1.2815515655 * 0.08), answer.Number("low") / days, 3);
        Assert.Contains("Crisp 1981", answer.Text("model"), StringComparison.Ordinal);
        Assert.Contains("Freshwater Biology", answer.Text("source"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Outside_its_source_a_curve_answers_with_a_mark_and_twice_the_spread()
    {
        var outside = await portal.AnswerAsync("development?species=rainbow-trout&stage=hatch&meanC=15");

        Assert.False(outside.GetProperty("inRange").GetBoolean());
        Assert.Equal(Math.Exp(1.2815515655 * 0.16), outside.Number("high") / outside.Number("days"), 3);
    }

    [Fact]
    public async Task One_warm_day_that_counts_takes_the_answer_out_of_range_and_one_after_the_stage_does_not()
    {
        var start = string.Join(',', Enumerable.Repeat("12", 40));

        var after = await portal.AnswerAsync($"development?species=rainbow-trout&stage=hatch&temperatures={start},20");
        var before = await portal.AnswerAsync($"development?species=rainbow-trout&stage=hatch&temperatures=20,{start}");

        Assert.True(after.GetProperty("inRange").GetBoolean());
        Assert.False(before.GetProperty("inRange").GetBoolean());
    }

    [Fact]
    public async Task Part_of_the_way_done_shortens_the_days_but_not_the_model_s_error()
    {
        var whole = await portal.AnswerAsync("development?species=brook-trout&stage=hatch&meanC=10");
        var half = await portal.AnswerAsync("development?species=brook-trout&stage=hatch&meanC=10&elapsedFraction=0.5");
        var nearly = await portal.AnswerAsync("development?species=brook-trout&stage=hatch&meanC=10&elapsedFraction=0.99");

        Assert.Equal(22, half.Number("days"), 3);
        Assert.Equal(whole.Number("high") - whole.Number("days"), half.Number("high") - half.Number("days"), 2);
        Assert.Equal(0, nearly.Number("low"));
    }

    [Theory]
    [InlineData("species=cutthroat-trout&stage=hatch&meanC=10", "species", "cutthroat")]
    [InlineData("species=lake-trout&stage=swim-up&meanC=6", "species", "lake trout")]
    [InlineData("species=brook-trout&stage=hatch&meanC=14", "meanC", "12.78 °C")]
    [InlineData("species=lake-trout&stage=hatch&meanC=1", "meanC", "1.67 °C")]
    [InlineData("species=brook-trout&stage=hatch&temperatures=9,9,15,9", "temperatures", "day 3")]
    public async Task Where_nothing_is_published_the_answer_is_422_with_the_reason(string query, string field, string reason)
    {
        var refused = await portal.RefusalAsync("development?" + query, 422);

        Assert.Equal([field], refused.Keys);
        Assert.Contains(reason, refused[field], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_handbook_table_answers_while_only_days_after_the_stage_lie_outside_it()
    {
        var days = string.Join(',', Enumerable.Repeat("10", 44)) + ",20";

        var answer = await portal.AnswerAsync($"development?species=brook-trout&stage=hatch&temperatures={days}");

        Assert.Equal(44, answer.Number("days"), 3);
    }

    [Fact]
    public async Task A_stage_that_is_never_reached_has_no_days_and_says_why()
    {
        var answer = await portal.AnswerAsync("development?species=chum-salmon&stage=hatch&meanC=-1");

        Assert.All(["days", "low", "high"], name => Assert.True(answer.IsNull(name)));
        Assert.Contains("never", answer.Text("why"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_answer_with_days_has_no_why()
    {
        var answer = await portal.AnswerAsync("development?species=chum-salmon&stage=hatch&meanC=8");

        Assert.False(answer.TryGetProperty("why", out _));
    }

    [Fact]
    public async Task An_unknown_species_is_told_every_code()
    {
        var refused = await portal.RefusalAsync("development?species=goldfish&stage=hatch&meanC=9");

        string[] codes =
        [
            "rainbow-trout", "steelhead", "cutthroat-trout", "brown-trout", "brook-trout", "lake-trout", "atlantic-salmon",
            "chinook-salmon", "coho-salmon", "chum-salmon", "sockeye-salmon", "pink-salmon",
        ];
        Assert.All(codes, code => Assert.Contains(code, refused["species"], StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("species=brook-trout&stage=hatch", "meanC,temperatures")]
    [InlineData("species=brook-trout&stage=hatch&meanC=9&temperatures=9,9", "meanC,temperatures")]
    [InlineData("species=brook-trout&stage=hatch&meanC=9,5", "meanC")]
    [InlineData("species=brook-trout&stage=hatch&temperatures=9,,9", "temperatures")]
    [InlineData("species=brook-trout&stage=hatch&temperatures=9,NaN", "temperatures")]
    [InlineData("species=brook-trout&stage=hatch&meanC=9&elapsedFraction=1", "elapsedFraction")]
    [InlineData("species=brook-trout&stage=hatch&meanC=9&elapsedFraction=-0.1", "elapsedFraction")]
    [InlineData("species=brook-trout&stage=eyed&meanC=9", "stage")]
    [InlineData("species=pink-salmon&line=leap&stage=hatch&meanC=9", "line")]
    [InlineData("", "meanC,species,stage,temperatures")]
    [InlineData("species=x&stage=y&meanC=z&elapsedFraction=2", "elapsedFraction,meanC,species,stage")]
    public async Task Every_fault_is_named_at_once(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("development?" + query)).Keys));

    [Fact]
    public async Task A_thousand_days_are_read_and_one_more_is_refused()
    {
        static string Days(int count) =>
            "development?species=coho-salmon&stage=hatch&temperatures=" + string.Join(',', Enumerable.Repeat("8", count));

        Assert.InRange((await portal.AnswerAsync(Days(1000))).Number("days"), 58.04, 58.06);
        Assert.Contains("1000", (await portal.RefusalAsync(Days(1001)))["temperatures"], StringComparison.Ordinal);
    }
}
