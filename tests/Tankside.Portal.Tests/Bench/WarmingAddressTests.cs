namespace Tankside.Portal.Tests.Bench;

public class WarmingAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    // The project's computed table of warming tanks: 10 gal bare glass and in foam, water 10 °C, room 21 °C, hours to 15 °C.
    [InlineData("litres=37.85&waterC=10&roomC=21&limitC=15", 3.7, 0.1)]
    [InlineData("litres=37.85&waterC=10&roomC=21&limitC=15&jacket=foam", 9.2, 0.1)]
    [InlineData("litres=37.85&waterC=10&roomC=21&limitC=18&jacket=none", 7.0, 0.1)]
    public async Task Hours_are_those_of_the_table(string query, double hours, double within)
    {
        var answer = await portal.AnswerAsync("warming?" + query);

        Assert.InRange(answer.Number("hours"), hours - within, hours + within);
        // 80%: hours x exp(±1.2816 x 0.4).
        Assert.Equal(Math.Exp(1.2815515655 * 0.4), answer.Number("high") / answer.Number("hours"), 3);
        Assert.Equal(Math.Exp(-1.2815515655 * 0.4), answer.Number("low") / answer.Number("hours"), 3);
    }

    [Fact]
    public async Task A_measured_half_time_takes_over_and_is_surer()
    {
        // The gap of 12 °C halves in 9 hours: 10 °C to 16 °C in a room of 22 °C, whatever the tank.
        var answer = await portal.AnswerAsync("warming?litres=20&waterC=10&roomC=22&limitC=16&jacket=foam&halfTimeHours=9");

        Assert.Equal(9, answer.Number("hours"), 4);
        Assert.Equal(9 * Math.Exp(1.2815515655 * 0.15), answer.Number("high"), 3);
    }

    [Fact]
    public async Task Bare_glass_is_meant_when_the_jacket_is_left_out() => Assert.Equal(
        (await portal.AnswerAsync("warming?litres=100&waterC=8&roomC=20&limitC=15&jacket=none")).Number("hours"),
        (await portal.AnswerAsync("warming?litres=100&waterC=8&roomC=20&limitC=15")).Number("hours"));

    [Theory]
    [InlineData("litres=100&waterC=10&roomC=14&limitC=15")]
    [InlineData("litres=100&waterC=10&roomC=15&limitC=15")]
    [InlineData("litres=100&waterC=10&roomC=14&limitC=15&halfTimeHours=9")]
    public async Task A_limit_that_the_room_does_not_pass_is_null_and_says_why(string query)
    {
        var answer = await portal.AnswerAsync("warming?" + query);

        Assert.All(["hours", "low", "high"], name => Assert.True(answer.IsNull(name)));
        Assert.Contains("room", answer.Text("why"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("litres=100&waterC=15&roomC=21&limitC=15")]
    [InlineData("litres=100&waterC=16&roomC=10&limitC=15")]
    public async Task Water_that_is_there_already_has_no_hours_left(string query)
    {
        var answer = await portal.AnswerAsync("warming?" + query);

        Assert.All(["hours", "low", "high"], name => Assert.Equal(0, answer.Number(name)));
    }

    [Theory]
    [InlineData("", "limitC,litres,roomC,waterC")]
    [InlineData("litres=0&waterC=10&roomC=21&limitC=15&jacket=wool&halfTimeHours=0", "halfTimeHours,jacket,litres")]
    [InlineData("litres=100&waterC=50&roomC=70&limitC=59", "limitC,roomC,waterC")]
    public async Task A_badly_asked_warming_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("warming?" + query)).Keys));
}
