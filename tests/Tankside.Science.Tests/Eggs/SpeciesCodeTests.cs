using Tankside.Science.Eggs;

namespace Tankside.Science.Tests.Eggs;

public class SpeciesCodeTests
{
    [Fact]
    public void Every_code_reads_back_as_its_species()
    {
        foreach (var species in Enum.GetValues<Species>())
        {
            var line = species == Species.PinkSalmonEven ? "even" : null;
            Assert.True(SpeciesCodes.TryParse(SpeciesCodes.CodeOf(species), line, out var read));
            Assert.Equal(species, read);
        }
    }

    [Theory]
    [InlineData(null, Species.PinkSalmonOdd)]
    [InlineData("odd", Species.PinkSalmonOdd)]
    [InlineData("even", Species.PinkSalmonEven)]
    public void Pink_salmon_are_told_apart_by_line(string? line, Species expected)
    {
        Assert.True(SpeciesCodes.TryParse("pink-salmon", line, out var species));
        Assert.Equal(expected, species);
        Assert.Equal("pink-salmon", SpeciesCodes.CodeOf(species));
    }

    [Theory]
    [InlineData("pink-salmon", "both")]
    [InlineData("goldfish", null)]
    [InlineData("", null)]
    public void An_unknown_code_or_line_is_not_read(string code, string? line) =>
        Assert.False(SpeciesCodes.TryParse(code, line, out _));

    [Theory]
    [InlineData(Species.RainbowTrout, "rainbow trout")]
    [InlineData(Species.AtlanticSalmon, "Atlantic salmon")]
    [InlineData(Species.PinkSalmonEven, "pink salmon (even-year)")]
    public void Common_names_read_as_in_a_sentence(Species species, string name) =>
        Assert.Equal(name, SpeciesCodes.CommonName(species));
}
