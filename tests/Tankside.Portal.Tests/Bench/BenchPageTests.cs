using System.Net;
using System.Text.RegularExpressions;
using Tankside.Portal.Bench;

namespace Tankside.Portal.Tests.Bench;

/// <summary>The pages, as a browser without scripts gets them.</summary>
public partial class BenchPageTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Fact]
    public async Task The_bench_lists_every_calculator_with_its_question()
    {
        var page = await portal.PageAsync("/bench");

        Assert.Equal(7, BenchFeature.Cards.Count);
        Assert.All(BenchFeature.Cards, card => Assert.Contains($"href=\"{card.Page}\"", page, StringComparison.Ordinal));
        Assert.All(BenchFeature.Cards, card => Assert.Contains(card.Asks, page, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Every_page_opens_with_its_question_a_form_that_can_be_shared_and_its_source()
    {
        foreach (var card in BenchFeature.Cards)
        {
            var page = await portal.PageAsync(card.Page);

            Assert.Equal(card.Asks, Heading(page));
            Assert.Contains($"<form class=\"sheet\" method=\"get\" action=\"{card.Page}\"", page, StringComparison.Ordinal);
            Assert.Contains(card.Source, page, StringComparison.Ordinal);
            Assert.Contains(card.HowKnown, page, StringComparison.Ordinal);
            Assert.DoesNotContain("class=\"error\"", page, StringComparison.Ordinal);
            Assert.All(card.Fields, field => Assert.Contains($"name=\"{field.PageName}\"", page, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("/bench/development?species=brook-trout&stage=hatch&unit=F&mean=50&temperatures=&elapsedFraction=&line=odd",
        "/bench/development?species=brook-trout&stage=hatch&unit=C&mean=10",
        "Half of the brook trout hatch about 44 days after fertilisation.")]
    [InlineData("/bench/development?species=brook-trout&stage=hatch&unit=F&temperatures=50+50%0A50",
        "/bench/development?species=brook-trout&stage=hatch&unit=C&temperatures=10,0;10",
        "Half of the brook trout hatch about 44 days after fertilisation.")]
    [InlineData("/bench/interval?alive=81&of=263", "/bench/interval?alive=81&of=263&confidence=0,95",
        "The true survival lies between 25.5% and 36.6%.")]
    [InlineData("/bench/dechlorination?volume=10&volumeUnit=gal&chlorineMgL=2",
        "/bench/dechlorination?volume=37,85411784&volumeUnit=L&chlorineMgL=2,0", "530 mg of sodium thiosulfate (pentahydrate).")]
    [InlineData("/bench/water-change?currentMgL=1&targetMgL=0.5&sourceMgL=0&largestChangePercent=25",
        "/bench/water-change?currentMgL=1&targetMgL=0,5&sourceMgL=0&largestChangePercent=25,0",
        "3 changes of 20.6% each bring it to 0.5 mg/L.")]
    [InlineData("/bench/ammonia?totalMgL=1&ph=8&unit=F&water=50", "/bench/ammonia?totalMgL=1,0&ph=8,0&unit=C&water=10,0",
        "1.82% of it is poisonous: 0.0182 mg/L as N (0.0222 as NH3).")]
    public async Task Both_ways_of_typing_give_the_same_answer(string one, string other, string sentence)
    {
        Assert.EndsWith(sentence, Heading(await portal.PageAsync(one)), StringComparison.Ordinal);
        Assert.EndsWith(sentence, Heading(await portal.PageAsync(other)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Oxygen_and_warming_answer_in_the_reader_s_unit()
    {
        Assert.Equal(
            "Water at 53.6 °F (12 °C) holds at most 8.9 mg/L of oxygen at 1524 m (5000 ft).",
            Heading(await portal.PageAsync("/bench/oxygen?unit=F&water=53.6&elevation=5000&elevationUnit=ft")));
        Assert.Equal(
            "Water at 12 °C (53.6 °F) holds at most 8.9 mg/L of oxygen at 1524 m (5000 ft).",
            Heading(await portal.PageAsync("/bench/oxygen?unit=C&water=12,0&elevation=1524&elevationUnit=m")));
        Assert.Equal(
            "The water reaches 59 °F in 4.3 to 11.9 hours; act within 4.3.",
            Heading(await portal.PageAsync("/bench/warming?volume=55&volumeUnit=gal&unit=F&water=50&room=70&limit=59")));
        Assert.Equal(
            "The room alone does not warm it to 15 °C.",
            Heading(await portal.PageAsync("/bench/warming?volume=208&volumeUnit=L&unit=C&water=10&room=14&limit=15")));
    }

    [Fact]
    public async Task A_fault_is_told_at_its_field_and_what_was_typed_stays()
    {
        var page = await portal.PageAsync("/bench/development?species=coho-salmon&stage=hatch&unit=F&mean=9,5&elapsedFraction=2");

        Assert.Equal("Nothing was reckoned yet.", Heading(page));
        Assert.Matches(
            "id=\"mean\" name=\"mean\" value=\"9,5\"[^>]*aria-invalid=\"true\"[^>]*aria-describedby=\"mean-error\"", page);
        Assert.Contains("Was it in °C?", page, StringComparison.Ordinal);
        Assert.Contains("id=\"elapsedFraction-error\"", page, StringComparison.Ordinal);
        Assert.Matches("value=\"coho-salmon\" selected", page);
    }

    [Fact]
    public async Task A_thousand_or_a_decimal_is_asked_back()
    {
        var page = await portal.PageAsync("/bench/oxygen?unit=F&water=50&elevation=5,000&elevationUnit=ft");

        Assert.Contains("can be read in two ways", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/bench/development?species=cutthroat-trout&stage=hatch&unit=F&mean=50",
        "No published development model is known for cutthroat trout")]
    [InlineData("/bench/development?species=brook-trout&stage=hatch&unit=F&mean=60", "runs from 1.67 °C (35 °F)")]
    public async Task Where_nothing_is_published_the_page_says_so(string address, string why)
    {
        var page = await portal.PageAsync(address);

        Assert.Equal("There is no published answer to that.", Heading(page));
        Assert.Contains(why, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_gives_the_address_of_its_own_answer_for_programs()
    {
        var page = await portal.PageAsync("/bench/development?species=brook-trout&stage=hatch&unit=F&mean=50");

        var address = ApiLink().Match(page).Groups[1].Value;
        Assert.Equal("/api/v1/bench/development?species=brook-trout&stage=hatch&meanC=10", address);
        Assert.Equal(44, (await portal.AnswerAsync(address["/api/v1/bench/".Length..])).Number("days"));
    }

    [Fact]
    public async Task What_was_typed_is_never_markup()
    {
        using var answer = await portal.Client.GetAsync("/bench/oxygen?unit=F&water=%22%3E%3Cscript%3Ealert(1)%3C/script%3E");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.DoesNotContain("<script>alert", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    private static string Heading(string page) => HeadingTag().Match(page).Groups[1].Value;

    [GeneratedRegex("<h1[^>]*>(.*?)</h1>", RegexOptions.Singleline)]
    private static partial Regex HeadingTag();

    [GeneratedRegex("href=\"(/api/v1/bench/[^\"]+)\"")]
    private static partial Regex ApiLink();
}
