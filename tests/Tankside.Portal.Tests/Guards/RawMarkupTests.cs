using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Guards;

/// <summary>What somebody typed is shown as text: markup that is not encoded, and scripts that write it, have no other place.</summary>
public partial class RawMarkupTests
{
    /// <summary>Strokes that are constants of ours, or made of numbers.</summary>
    private static readonly string[] Drawings = ["src/Tankside.Portal/Shell/Look/", "src/Tankside.Portal/Shell/Charts/"];

    [Fact]
    public void Raw_markup_stands_only_in_drawings() => SourceTree.AssertNone(Raw(SourceTree.Files("src", ".cs", ".razor")));

    [Fact]
    public void No_script_of_ours_writes_markup_or_runs_text() => SourceTree.AssertNone(Raw(SourceTree.Files("src/Tankside.Portal/wwwroot", ".js")));

    [Theory]
    [InlineData("src/Tankside.Portal/Flags/Call.razor", "@((MarkupString)note)")]
    [InlineData("src/Tankside.Portal/wwwroot/t/page.js", "box.innerHTML = words;")]
    [InlineData("src/Tankside.Portal/wwwroot/t/page.js", "eval(words)")]
    [InlineData("src/Tankside.Portal/wwwroot/t/page.js", "setTimeout('go()')")]
    public void One_elsewhere_is_found(string path, string text) => Assert.Single(Raw([new SourceFile(path, text)]));

    private static IEnumerable<string> Raw(IEnumerable<SourceFile> files) => files
        .Where(f => !Drawings.Any(d => f.Path.StartsWith(d, StringComparison.Ordinal)))
        .SelectMany(f => Dangerous().Matches(f.Text).Select(m => $"{f.Path}: {m.Value}"));

    [GeneratedRegex("""\bMarkupString\b|\.(?:inner|outer)HTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function\(|set(?:Timeout|Interval)\(\s*['"`]""")]
    private static partial Regex Dangerous();
}
