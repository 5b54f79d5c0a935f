using System.Globalization;
using System.Runtime.CompilerServices;
using Tankside.Hatchery.Flags;

namespace Tankside.Hatchery.Tests;

public class RulesPageTests
{
    [Fact]
    public void The_rules_page_lists_every_setting_with_its_default_unit_and_source()
    {
        var page = File.ReadAllText(Path.Combine(Path.GetDirectoryName(ThisFile())!, "../../docs/rules.md"));
        var missing = Limits.All
            .Select(s => string.Create(CultureInfo.InvariantCulture, $"| `{s.Key}` | {s.Default} | {s.Unit} | {s.Source} |"))
            .Where(line => !page.Contains(line, StringComparison.Ordinal))
            .ToList();

        Assert.True(missing.Count == 0, "docs/rules.md lacks or tells differently:\n" + string.Join('\n', missing));
    }

    [Fact]
    public void No_two_settings_share_a_key() => Assert.Equal(Limits.All.Count, Limits.All.Select(s => s.Key).Distinct().Count());

    private static string ThisFile([CallerFilePath] string path = "") => path;
}
