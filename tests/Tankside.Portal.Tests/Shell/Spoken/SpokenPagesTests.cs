using System.Text.RegularExpressions;
using System.Xml.Linq;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.Access;
using Tankside.Portal.Tests.Guards;

namespace Tankside.Portal.Tests.Shell.Spoken;

/// <summary>What a teacher, a kit hand, a driver or somebody without an account may open is said in both languages.</summary>
public partial class SpokenPagesTests
{
    private const string Portal = "src/Tankside.Portal/";

    private static readonly IReadOnlyList<SourceFile> Sources = SourceTree.Files("src/Tankside.Portal", ".razor", ".cs");

    private static readonly SourceFile[] Razors = [.. Sources.Where(f => f.Name.EndsWith(".razor", StringComparison.Ordinal))];

    /// <summary>Whole documents that no @page leads to, and what every page stands in.</summary>
    private static readonly string[] Documents = ["Shell/App.razor", "Shell/MainLayout.razor", "Eggs/Runs/DriverSheet.razor", "Eggs/Runs/NoSuchSheetPage.razor"];

    /// <summary>Parts of a spoken page that only coordinators, leads and agency contacts see. They say themselves that they are English.</summary>
    private static readonly string[] ForOthers = ["CoordinatorHome", "AgencyHome"];

    [Fact]
    public void Who_looks_after_a_tank_reads_it_in_their_language()
    {
        var mayOpen = AddressTable.Rows.Where(r => r.Method == "GET" && new[] { Caller.Nobody, Caller.Teacher, Caller.KitHand }.Any(c => r.Expected(c) is 'y'))
            .Select(r => r.Pattern).Concat(["/set-up/{Secret}", "/not-yours"]).ToHashSet();

        SourceTree.AssertNone(Razors.Where(f => Route().Matches(f.Text).Any(m => mayOpen.Contains(m.Groups[1].Value)) && !IsSpoken(f)).Select(Short));
    }

    [Fact]
    public void No_spoken_page_has_words_of_its_own() => SourceTree.AssertNone(
        Spoken().SelectMany(f => RazorText.HardCoded(f.Text, isRazor: f.Name.EndsWith(".razor", StringComparison.Ordinal)).Select(found => $"{Short(f)}: {found}")));

    [Fact]
    public void Every_sentence_that_is_asked_for_is_there_in_Spanish()
    {
        // The lead's forms share their rules with nobody.
        var asked = Sources.Where(f => f.Name is not "RoleForm.cs").SelectMany(f => RazorText.Asked(f.Text).Select(key => (f.Path, Key: key)));
        SourceTree.AssertNone(asked.Where(a => a.Key.Length > 0 && Say.InSpanish.Told(a.Key) is var said && said == a.Key && !Say.All.ContainsKey(a.Key)).Select(a => $"{a.Path}: {a.Key}").Distinct());
    }

    [Fact]
    public void Every_Spanish_sentence_is_asked_for()
    {
        var all = Sources.SelectMany(f => RazorText.Literals(f.Text)).Concat(Sources.SelectMany(f => RazorText.Asked(f.Text))).ToHashSet(StringComparer.Ordinal);
        SourceTree.AssertNone(Say.All.Keys.Where(k => !all.Contains(k) && !all.Contains(char.ToUpperInvariant(k[0]) + k[1..])));
    }

    [Fact]
    public void A_sentence_takes_the_same_values_in_both() =>
        SourceTree.AssertNone(Say.All.Where(t => !Slots(t.Key).SequenceEqual(Slots(t.Value))).Select(t => t.Key));

    [Fact]
    public void A_file_of_texts_is_read_in_one_sitting_and_says_a_sentence_once()
    {
        var files = SourceTree.Files("src/Tankside.Portal", "Spanish.resx");
        SourceTree.AssertNone(files.Where(f => XDocument.Parse(f.Text).Root!.Elements("data").Count() > 300).Select(f => f.Path));
        SourceTree.AssertNone(files.SelectMany(f => XDocument.Parse(f.Text).Root!.Elements("data").Select(d => d.Attribute("name")!.Value))
            .GroupBy(k => k).Where(g => g.Count() > 1).Select(g => g.Key));
    }

    [Theory]
    [InlineData("<p>Read the tank now.</p>", true)]
    [InlineData("<p>@Say[\"Read the tank now.\"]</p>", false)]
    [InlineData("<p>Tank @code is cold</p>", true)]
    [InlineData("<p>@(cold ? \"The tank is cold.\" : Say[\"Well.\"])</p>", true)]
    [InlineData("<p>@(cold ? Say[\"The tank is cold.\"] : Say.Of(\"{0} is well.\", code))</p>", false)]
    [InlineData("<Entry Label=\"Your name\" For=\"() => Input.Name\" />", true)]
    [InlineData("<Entry Label=\"@Say[\"Your name\"]\" For=\"() => Input.Name\" />", false)]
    [InlineData("@if (cold)\n{\n    <p>@Say[\"Cold.\"]</p>\n}\n\n@code {\n    private string Answer => $\"The tank {code} is cold.\";\n}", true)]
    [InlineData("<title>@name · Tankside</title>", false)]
    public void Words_that_do_not_come_through_Say_are_found(string razor, bool found) => Assert.Equal(found, RazorText.HardCoded(razor, isRazor: true).Any());

    [Fact]
    public void Where_the_Spanish_is_missing_a_test_fails_and_a_reader_gets_the_English()
    {
        Assert.Throws<KeyNotFoundException>(() => Say.InSpanish["Nobody has translated this."]);
        Assert.Equal("Nobody has translated this.", Say.In(Say.Spanish, strict: false)["Nobody has translated this."]);
    }

    [Fact]
    public void One_and_many_and_a_meaning_told_apart_are_said_right()
    {
        Assert.Equal(("1 tank", "1,200 tanks"), (Say.InEnglish.Count(1, "{0} tank", "{0} tanks"), Say.InEnglish.Count(1200, "{0} tank", "{0} tanks")));
        Assert.Equal(("1 tanque", "3 tanques"), (Say.InSpanish.Count(1, "{0} tank", "{0} tanks"), Say.InSpanish.Count(3, "{0} tank", "{0} tanks")));
        Assert.Equal(("about Tue 8 December", "hacia el mar 8 de diciembre"), (Say.InEnglish.Of("about {0}|day", "Tue 8 December"), Say.InSpanish.Of("about {0}|day", "mar 8 de diciembre")));
        Assert.Equal("Liberados", Say.InSpanish["Released"]);
    }

    /// <summary>Spoken pages and documents with every part they are made of, and the code beside them.</summary>
    private static IEnumerable<SourceFile> Spoken()
    {
        var open = new Queue<SourceFile>(Razors.Where(f => IsSpoken(f) || Documents.Contains(Short(f))));
        var found = new Dictionary<string, SourceFile>();
        while (open.TryDequeue(out var file))
        {
            if (!found.TryAdd(file.Path, file))
            {
                continue;
            }

            foreach (var name in RazorText.Components(file.Text).Except(ForOthers))
            {
                var parts = Razors.Where(r => r.Name == $"{name}.razor").ToList();
                if ((parts.Find(p => Folder(p) == Folder(file)) ?? parts.FirstOrDefault()) is { } part)
                {
                    open.Enqueue(part);
                }
            }

            if (Sources.FirstOrDefault(s => s.Path == file.Path + ".cs") is { } code)
            {
                found.TryAdd(code.Path, code);
            }
        }

        return found.Values;
    }

    private static bool IsSpoken(SourceFile file) => file.Text.Contains("@attribute [Spoken]", StringComparison.Ordinal);

    private static string Folder(SourceFile file) => file.Path[..^file.Name.Length];

    private static string Short(SourceFile file) => file.Path[Portal.Length..];

    private static IEnumerable<string> Slots(string text) => Slot().Matches(text).Select(m => m.Value).Distinct().Order();

    [GeneratedRegex(@"@page ""([^""]+)""")]
    private static partial Regex Route();

    [GeneratedRegex(@"\{\d")]
    private static partial Regex Slot();
}
