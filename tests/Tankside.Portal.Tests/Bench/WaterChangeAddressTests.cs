using System.Text.Json;

namespace Tankside.Portal.Tests.Bench;

public class WaterChangeAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    // (1 - f)^n: one half away is 50%, a quarter left after two halves, three steps of 20.63% where 25% is the most.
    [InlineData(1, 0.5, 0, 50, 1)]
    [InlineData(1, 0.25, 0, 50, 2)]
    [InlineData(1, 0.5, 0, 25, 3)]
    [InlineData(2, 0.5, 0.2, 30, 6)]
    [InlineData(4, 1, 0, 100, 1)]
    [InlineData(4, 0, 0, 100, 1)]
    public async Task Fewest_equal_changes_reach_the_target(
        double current, double target, double source, double largest, int count)
    {
        var steps = await StepsAsync(current, target, source, largest);

        Assert.Equal(count, steps.Count);
        Assert.All(steps, step => Assert.True(step <= largest));
        Assert.Equal(target, steps.Aggregate(current, (now, percent) => now + ((source - now) * percent / 100)), 4);
        // One change fewer, each as large as allowed, would not do.
        var fewer = Enumerable.Repeat(largest, count - 1)
            .Aggregate(current, (now, percent) => now + ((source - now) * percent / 100));
        Assert.True(fewer > target);
    }

    [Theory]
    [InlineData("currentMgL=0.5&targetMgL=0.5&sourceMgL=0&largestChangePercent=25")]
    [InlineData("currentMgL=0.2&targetMgL=0.5&sourceMgL=1&largestChangePercent=25")]
    public async Task Nothing_to_do_is_an_empty_list(string query)
    {
        var answer = await portal.AnswerAsync("water-change?" + query);

        Assert.Equal(0, answer.GetProperty("steps").GetArrayLength());
        Assert.False(answer.TryGetProperty("why", out _));
    }

    [Theory]
    [InlineData("currentMgL=1&targetMgL=0.1&sourceMgL=0.2&largestChangePercent=25", "new water")]
    [InlineData("currentMgL=1&targetMgL=0.2&sourceMgL=0.2&largestChangePercent=25", "all the water")]
    [InlineData("currentMgL=1000&targetMgL=0.001&sourceMgL=0&largestChangePercent=1", "1375 changes")]
    public async Task What_no_change_reaches_is_null_and_says_why(string query, string why)
    {
        var answer = await portal.AnswerAsync("water-change?" + query);

        Assert.True(answer.IsNull("steps"));
        Assert.Contains(why, answer.Text("why"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_warns_of_alkaline_water_every_time()
    {
        var answer = await portal.AnswerAsync("water-change?currentMgL=2&targetMgL=1&sourceMgL=0&largestChangePercent=30");
        var caution = answer.Text("caution");

        Assert.Contains("pH", caution, StringComparison.Ordinal);
        Assert.Contains("poisonous", caution, StringComparison.Ordinal);
        Assert.Contains("biologist", caution, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "currentMgL,largestChangePercent,sourceMgL,targetMgL")]
    [InlineData("currentMgL=1&targetMgL=0.5&sourceMgL=0&largestChangePercent=0.5", "largestChangePercent")]
    [InlineData("currentMgL=1&targetMgL=-0.5&sourceMgL=0&largestChangePercent=101", "largestChangePercent,targetMgL")]
    public async Task A_badly_asked_change_is_refused(string query, string fields) =>
        Assert.Equal(fields, string.Join(',', (await portal.RefusalAsync("water-change?" + query)).Keys));

    private async Task<List<double>> StepsAsync(double current, double target, double source, double largest)
    {
        var answer = await portal.AnswerAsync(FormattableString.Invariant(
            $"water-change?currentMgL={current}&targetMgL={target}&sourceMgL={source}&largestChangePercent={largest}"));
        return [.. answer.GetProperty("steps").EnumerateArray().Select((JsonElement step) => step.GetDouble())];
    }
}
