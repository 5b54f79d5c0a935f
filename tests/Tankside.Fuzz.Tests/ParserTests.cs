using CsCheck;

namespace Tankside.Fuzz.Tests;

/// <summary>A slice of the long run: every kept input once, and of new ones as many as there is time for in each build.</summary>
public class ParserTests
{
    /// <summary>The same inputs in each build, so that one fails for what was changed in it; the long run throws new ones.</summary>
    private const uint Stream = 20261128;

    public static IEnumerable<object[]> Kept => Parsers.All.SelectMany(t => Corpus.FilesOf(t).Select(f => new object[] { t.Name, Path.GetFileName(f) }));

    public static IEnumerable<object[]> Names => Parsers.All.Select(t => new object[] { t.Name });

    [Theory, MemberData(nameof(Kept))]
    public void A_kept_input_is_read_well(string target, string file)
    {
        var parser = Parsers.All.Single(t => t.Name == target);
        Assert.Null(Trial.Of(parser, File.ReadAllBytes(Path.Combine(Corpus.Folder, target, file)), out _)?.What);
    }

    [Theory, MemberData(nameof(Names))]
    public void A_new_input_is_read_well(string target)
    {
        var parser = Parsers.All.Single(t => t.Name == target);
        var inputs = new Inputs(parser);
        for (var i = 0; i < parser.Slice; i++)
        {
            var dice = new Dice(new PCG(Stream, (ulong)i));
            var found = Trial.Of(parser, inputs.Next(dice), out var answer);
            Assert.True(found is null, $"{found?.What}\nSeed {dice.Seed}, input {Convert.ToBase64String(found?.Input ?? [])}");
            inputs.Learn(found?.Input ?? [], answer);
        }
    }

    [Fact]
    public void Every_parser_has_kept_inputs_and_every_kept_input_a_parser()
    {
        Assert.All(Parsers.All, t => Assert.NotEmpty(Corpus.FilesOf(t)));
        Assert.Equal(Parsers.All.Select(t => t.Name).Order(), Directory.EnumerateDirectories(Corpus.Folder).Select(Path.GetFileName).Order());
        Assert.True(Parsers.All.SelectMany(Corpus.FilesOf).Sum(f => new FileInfo(f).Length) < 1 << 20);
    }
}
