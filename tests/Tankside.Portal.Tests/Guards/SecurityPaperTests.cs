using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Guards;

/// <summary>What docs/security-asvs.md says of itself is true: its sums, and that the tests and files it leans on are there.</summary>
public partial class SecurityPaperTests
{
    private static readonly string Paper = File.ReadAllText(Path.Combine(SourceTree.Root, "docs/security-asvs.md"));

    [Fact]
    public void Its_first_lines_count_its_rows()
    {
        var states = Row().Matches(Paper).Select(m => m.Groups[2].Value.Split(':')[0].Trim()).ToLookup(s => s);

        Assert.Equal(["met", "not met", "partly"], states.Select(s => s.Key).Order(StringComparer.Ordinal));
        Assert.Contains($"{states.Sum(s => s.Count())} apply here: {states["met"].Count()} are met, {states["partly"].Count()} partly, {states["not met"].Count()} not.", Paper, StringComparison.Ordinal);
    }

    [Fact]
    public void No_requirement_stands_there_twice() =>
        SourceTree.AssertNone(Row().Matches(Paper).Select(m => m.Groups[1].Value).GroupBy(n => n).Where(g => g.Count() > 1).Select(g => g.Key));

    [Fact]
    public void Every_test_and_file_that_it_names_is_there()
    {
        var files = SourceTree.Code.Select(f => f.Name).ToHashSet(StringComparer.Ordinal);

        SourceTree.AssertNone(Named().Matches(Paper).Select(m => m.Groups[1].Value.Split('/')[^1])
            .Select(name => name.Contains('.', StringComparison.Ordinal) ? name : name + ".cs").Where(name => !files.Contains(name)).Distinct());
    }

    [GeneratedRegex(@"^\| (\d+\.\d+\.\d+) \|.*\| ([^|]+) \|$", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"`([A-Za-z/.]+(?:Tests|Story|\.cs|\.razor))`")]
    private static partial Regex Named();
}
