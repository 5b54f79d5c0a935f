using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Guards;

/// <summary>
/// The list of dependencies in docs/security.md is the one that is built with: nobody can look up a package's known troubles by a list that is
/// out of date.
/// </summary>
public partial class DependencyListTests
{
    [Fact]
    public void Every_package_stands_in_the_list_with_its_version_and_no_other() => SourceTree.AssertNone(Differences(Read("Directory.Packages.props"), Read("docs/security.md")));

    [Fact]
    public void Every_font_that_is_served_or_printed_stands_in_the_list()
    {
        var list = Read("docs/security.md");

        SourceTree.AssertNone(SourceTree.Files("src/Tankside.Portal", ".woff2", ".ttf").Where(f => !list.Contains($"`{f.Name}`", StringComparison.Ordinal)).Select(f => f.Path));
    }

    [Theory]
    [InlineData("| Alder.Basin | 1.0.0 | MIT | water |", "Alder.Basin 2.0.0 is not in the list", "Alder.Basin 1.0.0 is in the list only")]
    [InlineData("", "Alder.Basin 2.0.0 is not in the list")]
    public void A_list_that_is_out_of_date_is_found(string list, params string[] found) =>
        Assert.Equal(found, Differences("""<PackageVersion Include="Alder.Basin" Version="2.0.0" />""", list));

    private static IEnumerable<string> Differences(string packages, string list)
    {
        var built = Package().Matches(packages).Select(m => $"{m.Groups[1].Value} {m.Groups[2].Value}").ToList();
        var listed = Row().Matches(list).Select(m => $"{m.Groups[1].Value} {m.Groups[2].Value}").ToList();
        return [.. built.Except(listed).Select(p => $"{p} is not in the list"), .. listed.Except(built).Select(p => $"{p} is in the list only")];
    }

    private static string Read(string path) => File.ReadAllText(Path.Combine(SourceTree.Root, path));

    [GeneratedRegex("<PackageVersion Include=\"([^\"]+)\" Version=\"([^\"]+)\"")]
    private static partial Regex Package();

    /// <summary>A name without a space and a version with a point: fonts and tools have neither both.</summary>
    [GeneratedRegex(@"^\| ([A-Za-z][A-Za-z0-9.]*) \| (\d+\.[0-9a-z.-]+) \|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
