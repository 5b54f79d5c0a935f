using System.Net;
using System.Text.Json;
using Tankside.Portal.Bench;
using Tankside.Portal.Bench.Asking;

namespace Tankside.Portal.Tests.Bench;

/// <summary>What all addresses of the bench share.</summary>
public class BenchAddressTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    [InlineData("1,5")]
    [InlineData("abc")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("-Infinity")]
    [InlineData("1e999")]
    [InlineData("0x10")]
    [InlineData("1 000")]
    public async Task What_is_no_number_is_refused_by_name_with_what_was_expected_and_an_example(string text)
    {
        var refused = await portal.RefusalAsync($"oxygen?waterC={Uri.EscapeDataString(text)}");

        Assert.Contains(text, refused["waterC"], StringComparison.Ordinal);
        Assert.Contains("Expected a number from 0 to 40 °C", refused["waterC"], StringComparison.Ordinal);
        Assert.Contains("for example waterC=10", refused["waterC"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_parameter_given_twice_is_refused() =>
        Assert.Contains("2 times", (await portal.RefusalAsync("oxygen?waterC=9&waterC=10"))["waterC"], StringComparison.Ordinal);

    [Fact]
    public async Task Unknown_parameters_are_let_be() =>
        Assert.Equal(11.288, (await portal.AnswerAsync("oxygen?waterC=10&colour=blue&unit=F")).Number("saturationMgL"), 3);

    [Fact]
    public async Task Very_long_text_does_not_come_back_whole() =>
        Assert.True((await portal.RefusalAsync("oxygen?waterC=" + new string('x', 5000)))["waterC"].Length < 300);

    [Fact]
    public async Task The_culture_of_the_asker_changes_nothing()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/v1/bench/oxygen?waterC=9.5");
        request.Headers.AcceptLanguage.ParseAdd("de-DE");

        using var answer = await portal.Client.SendAsync(request);

        Assert.Contains("\"saturationMgL\":11.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_answer_may_be_kept_for_an_hour_and_a_refusal_not()
    {
        using var answer = await portal.Client.GetAsync("/api/v1/bench/oxygen?waterC=9.5");
        using var refusal = await portal.Client.GetAsync("/api/v1/bench/oxygen?waterC=hot");

        Assert.Equal("public, max-age=3600", answer.Headers.CacheControl?.ToString());
        Assert.DoesNotContain(answer.Headers, h => h.Key == "Set-Cookie");
        Assert.False(refusal.Headers.CacheControl?.Public ?? false);
    }

    [Fact]
    public async Task Every_calculator_is_described_with_its_parameters_units_and_source()
    {
        using var document = JsonDocument.Parse(await portal.Client.GetStringAsync("/openapi/v1.json"));
        var paths = document.RootElement.GetProperty("paths");

        Assert.All(BenchFeature.Cards, card =>
        {
            var get = paths.GetProperty(card.Address).GetProperty("get");
            Assert.Equal(card.Asks, get.GetProperty("summary").GetString());
            Assert.Contains(card.Source, get.GetProperty("description").GetString(), StringComparison.Ordinal);
            Assert.Equal(
                card.Fields.Select(field => field.Name),
                get.GetProperty("parameters").EnumerateArray().Select(parameter => parameter.GetProperty("name").GetString()));
            Assert.All(get.GetProperty("parameters").EnumerateArray(), parameter =>
                Assert.NotEmpty(parameter.GetProperty("description").GetString()!));
            Assert.Equal(["200", "400", "422"], get.GetProperty("responses").EnumerateObject().Select(r => r.Name));
        });
    }

    [Fact]
    public async Task The_samples_of_the_cards_are_answered()
    {
        foreach (var card in BenchFeature.Cards)
        {
            var query = string.Join('&', card.Fields.Where(field => field.Required || field.Name == "meanC")
                .Select(field => $"{field.Name}={field.Sample}"));

            using var answer = await portal.Client.GetAsync($"{card.Address}?{query}");

            Assert.True(
                answer.StatusCode == HttpStatusCode.OK,
                $"{card.Address}?{query}: {await answer.Content.ReadAsStringAsync()}");
        }
    }

    [Theory]
    [InlineData("9,5", 9.5)]
    [InlineData(" 9.5 ", 9.5)]
    [InlineData("0,125", 0.125)]
    [InlineData("5,000", null)]
    [InlineData("1.000,5", null)]
    [InlineData("1,2,3", null)]
    [InlineData("", null)]
    public void People_may_write_a_decimal_comma_but_not_what_could_be_a_thousand(string typed, double? number) =>
        Assert.Equal(number, NumberText.AsTyped(typed));
}
