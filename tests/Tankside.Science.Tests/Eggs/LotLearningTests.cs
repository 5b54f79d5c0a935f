using Tankside.Science.Eggs;
using Tankside.Science.Losses;

namespace Tankside.Science.Tests.Eggs;

public class LotLearningTests
{
    private const double Shared = 0.08, Outside = 0.12;

    private static HatchLook Look(double y, double own = 0.03, double other = 0.04, bool outside = false) => new(y, own, other, outside);

    private static LotLearning From(params HatchLook[] looks) => LotLearning.From(Shared, Outside, looks);

    [Fact]
    public void Without_looks_the_prior_stands()
    {
        Near(0, 0.08, From().Shared(outsideRange: false));
        Near(0, Math.Sqrt(0.0064 + 0.0144), From().Shared(outsideRange: true));
    }

    [Fact]
    public void One_look_of_the_priors_own_spread_goes_half_way()
    {
        // R = 0.0064 = S²: V = 0.0032, mean = 0.1 / 2.
        var learning = From(Look(0.1, own: 0.048, other: 0.064));

        Near(0.05, Math.Sqrt(0.0032), learning.Shared(outsideRange: false));
    }

    [Fact]
    public void Three_looks_by_hand()
    {
        // R = 0.0025 each; 1/V = 156.25 + 3 x 400 = 1356.25; mean = 400 x (0.06 + 0.09 + 0.12) / 1356.25 = 0.0796313.
        var learning = From(Look(0.06), Look(0.09), Look(0.12));

        Near(108 / 1356.25, Math.Sqrt(1 / 1356.25), learning.Shared(outsideRange: false));
        Assert.Equal([0, 1, 2], learning.Used);
    }

    [Fact]
    public void What_a_vessels_own_look_leaves_over_is_its_own_error_by_its_share()
    {
        // One look y = 0.1, S² = 0.0064, own 0.0009, other 0.0016. u + o against y: cov 0.0073, var 0.0089.
        var learning = From(Look(0.1));

        Near(0.1 * 0.0073 / 0.0089, Math.Sqrt(0.0073 - (0.0073 * 0.0073 / 0.0089)), learning.Carried(1, 0, own: 0));
        Near(0.1 * 0.0064 / 0.0089, Math.Sqrt(0.0064 - (0.0064 * 0.0064 / 0.0089)), learning.Carried(1, 0, own: null));
    }

    [Fact]
    public void A_look_outside_the_range_teaches_little_of_what_is_inside_and_more_of_what_is_outside()
    {
        // y = 0.1: var = 0.0064 + 0.0144 + 0.0025 = 0.0233.
        var learning = From(Look(0.1, outside: true));

        Near(0.1 * 0.0064 / 0.0233, Math.Sqrt(0.0064 - (0.0064 * 0.0064 / 0.0233)), learning.Shared(outsideRange: false));
        Near(0.1 * 0.0208 / 0.0233, Math.Sqrt(0.0208 - (0.0208 * 0.0208 / 0.0233)), learning.Shared(outsideRange: true));
    }

    [Fact]
    public void One_wild_look_among_others_is_set_aside_and_named()
    {
        var calm = From(Look(0.02), Look(0.05), Look(0.03));
        var wild = From(Look(0.02), Look(-0.4), Look(0.05), Look(0.03));

        Assert.Equal([1], wild.SetAside);
        Assert.Equal(calm.Shared(false), wild.Shared(false));
        Assert.Equal(wild.Carried(1, 0, own: null), wild.Carried(1, 0, own: 1));
    }

    [Fact]
    public void A_single_wild_look_is_held_against_the_prior()
    {
        Assert.Equal([0], From(Look(0.5)).SetAside);
        Near(0, 0.08, From(Look(0.5)).Shared(false));
    }

    [Fact]
    public void Two_that_contradict_each_other_teach_nothing_until_a_third_decides()
    {
        Assert.Equal([0, 1], From(Look(-0.14), Look(0.14)).SetAside);
        Assert.Equal([0], From(Look(-0.14), Look(0.14), Look(0.12)).SetAside);
    }

    [Fact]
    public void A_lot_whose_dates_were_wrong_by_weeks_is_believed_once_three_agree()
    {
        Assert.Equal([0, 1], From(Look(0.4), Look(0.42)).SetAside);
        var learning = From(Look(0.4), Look(0.42), Look(0.38));

        Assert.Equal([0, 1, 2], learning.Used);
        Assert.InRange(learning.Shared(false).Mean, 0.33, 0.4);
    }

    [Fact]
    public void What_is_no_number_and_a_look_without_any_error_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => From(Look(double.NaN)));
        Assert.Throws<ArgumentOutOfRangeException>(() => From(Look(0, 0, 0)));
        Assert.Throws<ArgumentOutOfRangeException>(() => LotLearning.From(0, Outside, []));
    }

    /// <summary>Lots with an error of 7% of D in common: six vessels seen, six to come.</summary>
    [Fact]
    public void The_siblings_error_falls_by_more_than_a_third_and_their_interval_still_holds()
    {
        var random = new Random(20_270_204);
        double Draw(double sd) => sd * Normal.Quantile(Math.Clamp(random.NextDouble(), 1e-9, 1 - 1e-9));
        const double shared = 0.07, own = 0.03, other = 0.03, days = 33;
        var (before, after, held, siblings) = (0.0, 0.0, 0, 0);
        for (var lot = 0; lot < 2000; lot++)
        {
            var u = Draw(shared);
            HatchLook[] looks = [.. Enumerable.Range(0, 6).Select(_ => Look(u + Draw(own) + Draw(other), own, other))];
            var known = LotLearning.From(shared, Outside, looks).Shared(outsideRange: false);
            var reach = Normal.EightyPercent * Math.Sqrt((known.Sd * known.Sd) + (own * own));
            for (var i = 0; i < 6; i++, siblings++)
            {
                var e = u + Draw(own);
                before += Math.Abs(days * (Math.Exp(e) - 1));
                after += Math.Abs(days * (Math.Exp(e) - Math.Exp(known.Mean)));
                held += Math.Abs(e - known.Mean) <= reach ? 1 : 0;
            }
        }

        Assert.True(after < before * 2 / 3, $"{before / siblings:0.00} days before, {after / siblings:0.00} after");
        Assert.InRange(held / (double)siblings, 0.75, 0.85);
    }

    private static void Near(double mean, double sd, LogError error)
    {
        Assert.Equal(mean, error.Mean, 12);
        Assert.Equal(sd, error.Sd, 12);
    }
}
