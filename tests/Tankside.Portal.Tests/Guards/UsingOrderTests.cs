namespace Tankside.Portal.Tests.Guards;

/// <summary>
/// What a file uses stands in order: System first, then by name, then what is static, then what goes by another name. The build sees to
/// everything else of the format, and would not see this.
/// </summary>
public class UsingOrderTests
{
    [Fact]
    public void What_a_file_uses_stands_in_order() =>
        SourceTree.AssertNone(OutOfOrder(SourceTree.Code.Where(f => f.Path.EndsWith(".cs", StringComparison.Ordinal))));

    [Theory]
    [InlineData("using Alder;\nusing System.Text;\n")]
    [InlineData("using Alder.Basin;\nusing Alder;\n")]
    [InlineData("using static Alder.Basin;\nusing Alder;\n")]
    [InlineData("using Pond = Alder.Basin;\nusing static Alder.Basin;\n")]
    public void One_out_of_order_is_found(string text) => Assert.Equal(["src/A.cs: line 2"], OutOfOrder([new SourceFile("src/A.cs", text)]));

    [Fact]
    public void Those_in_order_are_not() => Assert.Empty(OutOfOrder(
        [new SourceFile("src/A.cs", "using System;\nusing System.Text;\nusing Alder;\nusing alder.Basin;\nusing Alder.Pond;\nusing Xunit;\nusing static Alder.Basin;\nusing A = Alder;\n\nnamespace B;\n")]));

    private static IEnumerable<string> OutOfOrder(IEnumerable<SourceFile> files) =>
        from file in files
        let used = file.Text.Split('\n').TakeWhile(line => line.StartsWith("using ", StringComparison.Ordinal)).ToList()
        from i in Enumerable.Range(1, Math.Max(0, used.Count - 1))
        where Order.Compare(used[i - 1], used[i]) > 0
        select $"{file.Path}: line {i + 1}";

    private static Comparer<string> Order { get; } = Comparer<string>.Create((a, b) =>
        Kind(a) != Kind(b) ? Kind(a) - Kind(b) : Names(a).Zip(Names(b), (x, y) => string.Compare(x, y, StringComparison.OrdinalIgnoreCase)).FirstOrDefault(c => c != 0) is var first and not 0
            ? first
            : Names(a).Length - Names(b).Length);

    private static int Kind(string line) => line.Contains('=', StringComparison.Ordinal) ? 3 : line.StartsWith("using static ", StringComparison.Ordinal) ? 2
        : Names(line)[0] == "System" ? 0 : 1;

    private static string[] Names(string line) => line.TrimEnd(';').Split(' ')[^1].Split('.');
}
