namespace Tankside.Portal.Tests.Guards;

/// <summary>A file is read in one sitting.</summary>
public class SizeTests
{
    private const int MostLines = 300;

    [Fact]
    public void No_file_is_too_long_to_read_in_one_sitting() => SourceTree.AssertNone(TooLong(SourceTree.Code));

    [Fact]
    public void A_file_that_is_too_long_is_found()
    {
        var fits = new SourceFile("src/A.cs", string.Concat(Enumerable.Repeat("x\n", MostLines)));
        var tooLong = new SourceFile("src/B.razor", fits.Text + "x\n");

        Assert.Equal(["src/B.razor: 301 lines"], TooLong([fits, tooLong]));
    }

    private static IEnumerable<string> TooLong(IEnumerable<SourceFile> files) => files
        .Select(f => (f.Path, Lines: f.Text.TrimEnd('\n').Split('\n').Length))
        .Where(f => f.Lines > MostLines)
        .Select(f => $"{f.Path}: {f.Lines} lines");
}
