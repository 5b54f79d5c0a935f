using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Tests.Places;

public class RoomCodesTests
{
    [Fact]
    public void A_code_is_twelve_signs_of_the_alphabet_as_the_numbers_fall()
    {
        var last = 0;
        var code = RoomCodes.Make(bound => last++ % bound);

        Assert.Equal("23456789bcdf", code);
    }

    [Fact]
    public void No_sign_can_be_misread_and_none_is_a_vowel()
    {
        Assert.Equal(28, RoomCodes.Alphabet.Distinct().Count());
        Assert.DoesNotContain(RoomCodes.Alphabet, c => "aeiou01l".Contains(c, StringComparison.Ordinal));
        Assert.InRange(RoomCodes.Bits, 57.6, 57.7);
    }

    [Fact]
    public void As_it_is_printed_it_is_the_same_code()
    {
        Assert.Equal("2345-6789-bcdf", RoomCodes.Grouped("23456789bcdf"));
        Assert.Equal("23456789bcdf", RoomCodes.Normalise(RoomCodes.Grouped("23456789bcdf")));
    }

    [Theory]
    [InlineData("2345 6789 BCDF")]
    [InlineData("2345-6789-bcdf")]
    [InlineData(" 23456789bcdf\t")]
    public void Spaces_dashes_and_capitals_of_a_typed_code_do_not_matter(string typed) =>
        Assert.Equal("23456789bcdf", RoomCodes.Normalise(typed));
}
