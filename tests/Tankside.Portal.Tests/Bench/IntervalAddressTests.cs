namespace Tankside.Portal.Tests.Bench;

public class IntervalAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    // Newcombe 1998, Statistics in Medicine 17:857-872, table I, method 3.
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(0, 20, 0, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public async Task The_ends_are_those_of_the_published_table(int alive, int of, double low, double high)
    {
        var answer = await portal.AnswerAsync($"interval?alive={alive}&of={of}");

        Assert.Equal(low, answer.Number("low"), 4);
        Assert.Equal(high, answer.Number("high"), 4);
    }

    [Fact]
    public async Task More_confidence_is_a_wider_interval()
    {
        var usual = await portal.AnswerAsync("interval?alive=81&of=263&confidence=0.95");
        var surer = await portal.AnswerAsync("interval?alive=81&of=263&confidence=0.99");

        Assert.Equal(usual.Number("low"), (await portal.AnswerAsync("interval?alive=81&of=263")).Number("low"));
        Assert.True(surer.Number("low") < usual.Number("low") && surer.Number("high") > usual.Number("high"));
    }

    [Theory]
    [InlineData("", "alive,of")]
    [InlineData("alive=5&of=4", "alive")]
    [InlineData("alive=0&of=0", "of")]
    [InlineData("alive=-1&of=4", "alive")]
    [InlineData("alive=1.5&of=4", "alive")]
    [InlineData("alive=5&of=4&confidence=95", "alive,confidence")]
    [InlineData("alive=1&of=4&confidence=1", "confidence")]
    [InlineData("alive=1&of=4&confidence=0", "confidence")]
    public async Task A_badly_asked_interval_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("interval?" + query)).Keys));
}
