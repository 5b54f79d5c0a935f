using System.Text.RegularExpressions;
using System.Xml.Linq;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Readings;
using Tankside.Portal.Tests.Guards;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Tests.Readings;

/// <summary>What a class reads is there in both languages, and nothing of it stands in a page itself.</summary>
public partial class ClassWordsTests
{
    private static readonly IReadOnlyDictionary<string, string> English = Texts("ClassWords.resx"), Spanish = Texts("ClassWords.es.resx");

    private static readonly SourceFile[] Pages =
    [
        // Photos and imports are for adults alone.
        .. SourceTree.Files("src/Tankside.Portal/Readings", ".razor", ".cs").Where(f => !f.Parts.Contains("Photos") && !f.Parts.Contains("Sheets")), .. SourceTree.Files("src/Tankside.Portal/Flags/AtTheTank", ".razor", ".cs"),
    ];

    [Fact]
    public void Both_languages_have_the_same_texts() => Assert.Equal(English.Keys.Order(), Spanish.Keys.Order());

    [Fact]
    public void A_text_takes_the_same_values_in_both() =>
        SourceTree.AssertNone(English.Where(t => !Slots(t.Value).SequenceEqual(Slots(Spanish[t.Key]))).Select(t => t.Key));

    [Fact]
    public void Only_what_is_the_same_word_is_said_the_same() => Assert.Equal(["date", "no", "ph"], English.Where(t => Spanish[t.Key] == t.Value).Select(t => t.Key).Order());

    [Fact]
    public void Every_text_that_a_page_asks_for_is_there_and_every_text_is_asked_for()
    {
        var asked = Pages.SelectMany(f => Asked().Matches(f.Text)).Select(m => m.Groups[1].Value).ToHashSet();
        string[] byField = [.. Pages.SelectMany(f => Fields().Matches(f.Text)).Select(m => m.Groups[1].Value)];
        string[] byList = ["deadEggs", "deadAlevins", "deadFry", "roomTemperature", "ph", "ammoniaTotalMgL", "nitriteMgL", "oxygenMgL", "chlorineMgL", "waterChangedPercent"];
        string[] shares = ["share.none", "share.some", "share.half", "share.most", "share.all"];
        var signs = TankSigns.All.SelectMany(s => new[] { $"sign.{TankSigns.NameOf(s)}", $"sign.{TankSigns.NameOf(s)}.class" });
        var species = Enum.GetValues<Species>().Select(SpeciesCodes.CodeOf);

        Assert.Equal(English.Keys.Order(StringComparer.Ordinal), asked.Union(byField).Union(byList).Union(shares).Union(signs).Union(species).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void No_page_of_a_class_has_words_of_its_own() => SourceTree.AssertNone(
        Pages.Where(f => f.Name.EndsWith(".razor", StringComparison.Ordinal))
            .SelectMany(f => OwnWords().Matches(Comment().Replace(f.Text[..CodeAt(f.Text)], "")).Select(m => $"{f.Path}: {m.Value.Trim()}")));

    [Theory]
    [InlineData(null, "en")]
    [InlineData("", "en")]
    [InlineData("de-DE,de;q=0.9", "en")]
    [InlineData("es-MX,es;q=0.9,en;q=0.8", "es")]
    [InlineData("en-US,en;q=0.9,es;q=0.8", "en")]
    [InlineData("en;q=0.2, es;q=0.7", "es")]
    [InlineData("es;q=0, en;q=0.1", "en")]
    [InlineData("es;q=nonsense", "es")]
    public void The_browser_says_which_language_is_liked(string? header, string language) => Assert.Equal(language, ClassWords.Liked(header).Language);

    [Fact]
    public void A_day_is_written_as_people_write_it()
    {
        var day = new DateOnly(2027, 2, 3);

        Assert.Equal(("Wednesday 3 February", "miércoles 3 de febrero"), (ClassWords.English.Day(day), ClassWords.Spanish.Day(day)));
    }

    private static Dictionary<string, string> Texts(string name) =>
        XDocument.Parse(SourceTree.Files("src/Tankside.Portal/Readings", name).Single().Text).Root!.Elements("data")
            .ToDictionary(d => d.Attribute("name")!.Value, d => d.Element("value")!.Value);

    private static IEnumerable<string> Slots(string text) => Slot().Matches(text).Select(m => m.Value).Distinct().Order();

    private static int CodeAt(string text) => text.IndexOf("@code", StringComparison.Ordinal) is var at && at < 0 ? text.Length : at;

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Slot();

    [GeneratedRegex(@"(?:\b[Ww]ords(?:\.Of\(|\[)|this\[(?=""chart))""([\w.-]+)""[\],)]")]
    private static partial Regex Asked();

    [GeneratedRegex(@"<(?:Tick|Choice) Input=""Input"" Field=""(\w+)""")]
    private static partial Regex Fields();

    [GeneratedRegex(@"@\*.*?\*@", RegexOptions.Singleline)]
    private static partial Regex Comment();

    /// <summary>Letters between tags, or in an attribute that is read out, that do not come from an expression.</summary>
    [GeneratedRegex(@">\s*[A-Za-z][a-z]+ [^<>@{}]*<|(?:aria-label|title|alt|placeholder)=""[A-Za-z][^""@]*""")]
    private static partial Regex OwnWords();
}
