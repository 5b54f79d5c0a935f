using System.Text.RegularExpressions;
using Tankside.Portal.Bench;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Bench;

/// <summary>The pages say in Spanish what the API says in English.</summary>
public class SpanishBenchTests(BenchPortal portal) : IClassFixture<BenchPortal>
{
    [Theory]
    [InlineData("/bench", "¿Qué quiere calcular?")]
    [InlineData("/bench/development?species=brook-trout&stage=hatch&unit=C&mean=10", "La mitad de los peces (trucha de arroyo) nace unos 44 días después de la fecundación.")]
    [InlineData("/bench/development?species=pink-salmon&stage=swim-up&unit=C&temperatures=8+9&elapsedFraction=0,5&line=even", "La mitad de los peces (salmón rosado, año par) nada hacia arriba unos ")]
    [InlineData("/bench/warming?volume=55&volumeUnit=gal&unit=F&water=50&room=70&limit=59", "El agua llega a 59 °F en 4.3 a 11.9 horas; actúe antes de 4.3.")]
    [InlineData("/bench/oxygen?unit=C&water=12,0&elevation=1524&elevationUnit=m", "El agua a 12 °C (53.6 °F) contiene como máximo 8.9 mg/L de oxígeno a 1524 m (5000 pies).")]
    [InlineData("/bench/ammonia?totalMgL=1&ph=8&unit=C&water=10", "El 1.82% es venenoso: 0.0182 mg/L como N (0.0222 como NH3).")]
    [InlineData("/bench/water-change?currentMgL=1&targetMgL=0.5&sourceMgL=0&largestChangePercent=25", "3 cambios del 20.6% cada uno lo bajan a 0.5 mg/L.")]
    [InlineData("/bench/dechlorination?volume=10&volumeUnit=gal&chlorineMgL=2", "Para 10 galones de EE. UU. con 2 mg/L hacen falta 530 mg de tiosulfato de sodio (pentahidratado).")]
    [InlineData("/bench/interval?alive=81&of=263", "La supervivencia verdadera está entre 25.5% y 36.6%.")]
    public async Task An_answer_is_said_in_Spanish(string address, string sentence)
    {
        var page = await portal.PageAsync(address, "es-MX,es;q=0.9,en;q=0.8");

        Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
        Assert.Contains($"<h1>{sentence}", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/bench/oxygen?unit=F&water=50&elevation=5,000&elevationUnit=ft", "«5,000» se puede leer de dos maneras. Escríbalo sin la coma.")]
    [InlineData("/bench/oxygen?unit=F&water=warm&elevation=&pressureHPa=", "«warm» no es un número. Escriba un número de 32 a 104 °F, por ejemplo 50.")]
    [InlineData("/bench/oxygen?unit=F&water=50&elevation=10&pressureHPa=900", "Dé la altitud o la presión, no las dos.")]
    [InlineData("/bench/development?species=coho-salmon&stage=hatch&unit=F&mean=9,5&elapsedFraction=2", "¿Estaba en °C?")]
    [InlineData("/bench/development?species=coho-salmon&stage=hatch&unit=C&temperatures=8+x", "Día 2: «x» no es un número. Escriba la media de cada día, de -5 a 40 °C,")]
    [InlineData("/bench/interval?alive=8&of=", "Falta este dato: Escriba un número entero de 1 a 1000000000, por ejemplo 263.")]
    [InlineData("/bench/development?species=brook-trout&stage=hatch&unit=F&mean=60", "La tabla de manual para trucha de arroyo va de 1.67 °C (35 °F) a ")]
    [InlineData("/bench/development?species=cutthroat-trout&stage=hatch&unit=F&mean=50", "No se conoce ningún modelo de desarrollo publicado para la trucha degollada")]
    public async Task A_refusal_is_said_in_Spanish(string address, string why) =>
        Assert.Contains(why, await portal.PageAsync(address, "es"), StringComparison.Ordinal);

    [Fact]
    public void Every_text_of_every_card_that_has_words_is_there_in_Spanish() => Assert.All(
        BenchFeature.Cards.SelectMany(c => new[] { c.Title, c.Asks, c.Symbols, c.Range, c.HowKnown }),
        text => Assert.NotEqual(text, Say.InSpanish[text]));

    [Theory]
    [InlineData("development?species=cutthroat-trout&stage=hatch&meanC=10", "No published development model is known for cutthroat trout")]
    [InlineData("development?species=brook-trout&stage=hatch&meanC=16", "The handbook table for brook trout runs from")]
    [InlineData("oxygen?waterC=warm", "'warm' is not a number. Expected a number from 0 to 40 °C, with a decimal point, for example waterC=10.")]
    [InlineData("dechlorination?litres=10&chlorineMgL=2", "An adult doses, and tests for zero total chlorine")]
    [InlineData("warming?litres=208&waterC=10&roomC=14&limitC=15", "so the room alone does not warm the water to it")]
    public async Task A_program_reads_English_whatever_it_likes_best(string question, string words)
    {
        var answer = WithoutTrace(await portal.RawAsync(question, "es"));

        Assert.Equal(WithoutTrace(await portal.RawAsync(question, "en")), answer);
        Assert.Contains(words, Regex.Unescape(answer), StringComparison.Ordinal);
    }

    /// <summary>A refusal names the request that it answers, each one its own.</summary>
    private static string WithoutTrace(string answer) => Regex.Replace(answer, "\"traceId\":\"[^\"]*\"", "");
}
