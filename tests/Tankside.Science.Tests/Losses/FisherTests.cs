using CsCheck;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Losses;

public class FisherTests
{
    // Fisher's lady tasting tea: 8 cups, 4 with milk first, and she names 4. Printed for at least 3 right: p = 0.2429 (Agresti 2002, p. 91,
    // worked in the documentation of R's fisher.test); all four right: 1 in 70.
    [Theory]
    [InlineData(3, 1, 17 / 70.0)]
    [InlineData(4, 0, 1 / 70.0)]
    [InlineData(0, 4, 1)]
    public void The_lady_tasting_tea(int right, int wrong, double probability) =>
        Assert.Equal(probability, Fisher.UpperTail(right, 4, wrong, 4), 12);

    // Fisher's twins of convicts: 10 of 13 identical against 2 of 17 other twins convicted too. Printed p = 0.0005 (0.0004652 by R;
    // from memory).
    [Fact]
    public void The_twins_of_convicts() => Assert.Equal(0.0004652, Fisher.UpperTail(10, 13, 2, 17), 7);

    [Fact]
    public void It_is_the_share_of_all_draws_with_as_many_or_more() =>
        Gen.Select(Gen.Int[1, 7], Gen.Int[1, 7]).SelectMany((group, rest) => Gen.Select(Gen.Int[0, group], Gen.Int[0, rest])
            .Select((a, b) => (a, group, b, rest))).Sample(t =>
        {
            var (inGroup, group, inRest, rest) = t;
            var (marked, all) = (inGroup + inRest, group + rest);
            var draws = Enumerable.Range(0, 1 << all).Where(d => int.PopCount(d) == marked).ToList();
            var asMany = draws.Count(d => int.PopCount(d & ((1 << group) - 1)) >= inGroup);

            Rows.Near(asMany / (double)draws.Count, Fisher.UpperTail(inGroup, group, inRest, rest), 1e-10, "tail");
        });

    [Fact]
    public void Without_a_rest_nothing_can_be_told_and_far_out_the_digits_stay()
    {
        Assert.Equal(1, Fisher.UpperTail(3, 8, 0, 0));
        Assert.Equal(1, Fisher.UpperTail(0, 0, 3, 8));

        // All 60 marked among the first 60 of 120: one draw in C(120, 60) = 9.6614908840363e34.
        Rows.Near(1, Fisher.UpperTail(60, 60, 0, 60) * 9.661490884036324e34, 1e-9, "tail");
    }

    [Theory]
    [InlineData(-1, 4, 1, 4)]
    [InlineData(5, 4, 1, 4)]
    [InlineData(1, 4, 5, 4)]
    public void Impossible_numbers_are_refused(int inGroup, int group, int inRest, int rest) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Fisher.UpperTail(inGroup, group, inRest, rest));
}
