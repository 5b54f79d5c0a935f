namespace Tankside.Portal.Tests.Guards;

/// <summary>The words stay in the order of the flow, and the scan that says so is able to object.</summary>
public class WordOrderTests
{
    private const string Db = "src/Tankside.Storage/HatcheryDb.cs", FlagFile = "src/Tankside.Hatchery/Flags/Flag.cs";

    [Fact]
    public void No_word_mentions_one_to_its_right() => SourceTree.AssertNone(new WordOrder(SourceTree.Code).Violations());

    [Fact]
    public void No_project_hides_a_namespace_of_ours_in_a_global_using() =>
        SourceTree.AssertNone(SourceTree.Files("src", ".csproj", ".props").Where(f => HidesOurs(f.Text)).Select(f => f.Path));

    [Theory]
    [InlineData("src/Tankside.Hatchery/Readings/A.cs", "using Tankside.Hatchery.Flags;")]
    [InlineData("src/Tankside.Hatchery/Readings/A.cs", "using F = Tankside.Hatchery.Flags.Flag;")]
    [InlineData("src/Tankside.Hatchery/Readings/A.cs", "Func<Task> f = async () => await Do(Flags.Flag.Of(x));")]
    [InlineData("src/Tankside.Hatchery/Places/A.cs", "/// <see cref=\"Hatchery.Eggs.EggLot\"/>")]
    [InlineData("src/Tankside.Storage/Readings/A.cs", "using Tankside.Hatchery.Releases;")]
    [InlineData("src/Tankside.Storage/Versions.cs", "using Tankside.Hatchery.People;")]
    [InlineData("src/Tankside.Portal/Readings/A.cs", "var open = await db.Flags.ToListAsync();")]
    [InlineData("src/Tankside.Portal/Readings/APage.razor", "@using Tankside.Portal.Flags")]
    [InlineData("src/Tankside.Portal/_Imports.razor", "@using Tankside.Hatchery.People")]
    [InlineData("src/Tankside.Portal/Shell/A.cs", "using Tankside.Hatchery.People;")]
    [InlineData("src/Tankside.Portal/Shell/A.cs", "using Tankside.Portal.Commands;")]
    [InlineData("src/Tankside.Portal/Accounts/A.cs", "using Tankside.Hatchery.Seasons;")]
    [InlineData("src/Tankside.Portal/Bench/A.cs", "using Tankside.Storage;")]
    [InlineData("src/Tankside.Portal/Bench/A.cs", "using Tankside.Portal.Accounts;")]
    [InlineData("src/Tankside.Portal/Digests/A.cs", "using Tankside.Portal.Demo;")]
    [InlineData("src/Tankside.Portal/Flags/A.cs", "global using System.Text;")]
    [InlineData("src/Tankside.Portal/Alerts/A.cs", "")]
    public void A_mention_out_of_order_is_found(string path, string text) => Assert.Single(Violations(path, text));

    [Theory]
    [InlineData("src/Tankside.Hatchery/Flags/A.cs", "using Tankside.Hatchery.Readings;")]
    [InlineData("src/Tankside.Hatchery/Readings/A.cs", "var count = Flags.Count; // a property of its own")]
    [InlineData("src/Tankside.Storage/Flags/A.cs", "namespace Tankside.Storage.Flags;")]
    [InlineData("src/Tankside.Portal/Flags/A.cs", "using Tankside.Portal.Accounts; using Tankside.Storage;")]
    [InlineData("src/Tankside.Portal/Shell/Start.cs", "using Tankside.Portal.Commands;")]
    [InlineData("src/Tankside.Portal/Commands/A.cs", "using Tankside.Portal.Digests;")]
    [InlineData("src/Tankside.Portal/Bench/A.cs", "using Tankside.Science.Water;")]
    public void A_mention_in_order_is_let_be(string path, string text) => Assert.Empty(Violations(path, text));

    [Theory]
    [InlineData("<Using Include=\"Tankside.Hatchery.Flags\" />")]
    [InlineData("<Using  Include=\"Tankside.Portal.Shell\" Static=\"true\" />")]
    public void A_global_using_in_a_project_is_found(string line) => Assert.True(HidesOurs(line));

    private static IEnumerable<string> Violations(string path, string text) => new WordOrder(
    [
        new SourceFile(Db, "public DbSet<Flag> Flags => Set<Flag>();"),
        new SourceFile(FlagFile, "namespace Tankside.Hatchery.Flags; public sealed class Flag;"),
        new SourceFile(path, text),
    ]).Violations();

    private static bool HidesOurs(string project) =>
        System.Text.RegularExpressions.Regex.IsMatch(project, "<Using\\s+Include=\"Tankside");
}
