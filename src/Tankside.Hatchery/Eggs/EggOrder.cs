using Tankside.Science.Losses;

namespace Tankside.Hatchery.Eggs;

/// <summary>What came of the eggs of one tank in a past season.</summary>
/// <param name="Of">Eggs that came to it, less what was moved on.</param>
/// <param name="Released">Fish it released.</param>
public readonly record struct PastTank(int Of, int Released);

/// <summary>How well eggs end as released fish in this programme.</summary>
/// <param name="Alike">
/// Fish that count as one: those of a tank live and die together, so that a hundred fish of one tank say less than a hundred fish of a
/// hundred tanks. The design effect of the past tanks, 1 or more.
/// </param>
public sealed record SurvivalKnown(BetaShare Share, double Alike, int Tanks)
{
    /// <summary>
    /// Weak prior: two to-fry figures of hatcheries, brook trout 52.0% (a farm) and lake trout 69.2% (Casselman 1995, abstract seen), mean
    /// 0.606, taken as worth four tanks' single fish (judgement).
    /// </summary>
    public static readonly BetaShare Prior = new(0.606 * 4, (1 - 0.606) * 4);

    /// <summary>Fish that count as one where too few tanks are known to tell (judgement: a class loses about as a whole).</summary>
    private const double UsualAlike = 40;

    /// <summary>Tanks from which their own spread is taken.</summary>
    private const int Enough = 8;

    public static SurvivalKnown From(IReadOnlyList<PastTank> past)
    {
        var tanks = past.Where(t => t is { Of: > 0, Released: >= 0 } && t.Released <= t.Of).ToList();
        var (of, released) = (tanks.Sum(t => (double)t.Of), tanks.Sum(t => (double)t.Released));
        var alike = tanks.Count >= Enough ? DesignEffect(tanks, released / of) : UsualAlike;
        return new SurvivalKnown(new BetaShare(Prior.A + (released / alike), Prior.B + ((of - released) / alike)), alike, tanks.Count);
    }

    /// <summary>How much more the tanks' shares spread than fish that died by themselves would: the variance of the ratio over the binomial one.</summary>
    private static double DesignEffect(List<PastTank> tanks, double share)
    {
        if (share is <= 0 or >= 1)
        {
            return UsualAlike;
        }

        // Ratio estimator of clusters (Cochran, Sampling Techniques, 3rd ed., 1977, section 3.12; from memory).
        var of = tanks.Sum(t => (double)t.Of);
        var n = tanks.Count;
        var variance = n / (n - 1.0) * tanks.Sum(t => Math.Pow(t.Released - (share * t.Of), 2)) / (of * of);
        return Math.Max(1, variance / (share * (1 - share) / of));
    }
}

/// <summary>How many eggs to order.</summary>
/// <param name="ForRelease">Eggs to hand out, so that the releases reach the wish as surely as asked.</param>
/// <param name="Reserve">Eggs kept back on top.</param>
/// <param name="Order">Both, rounded up to the pack.</param>
/// <param name="Chance">The chance that the handed-out share of the order gives the wish.</param>
/// <param name="Low80">Releases to expect of it, four times in five between this and <paramref name="High80"/>.</param>
public sealed record EggOrder(int ForRelease, int Reserve, int Order, double Chance, int Low80, int High80)
{
    /// <summary>More eggs than any programme orders; beyond it no number is sure enough.</summary>
    public const int Most = 1_000_000;

    /// <summary>The smallest multiple of the pack that reaches the wish; null when none up to <see cref="Most"/> does.</summary>
    /// <param name="wish">Fish to be released, 1 or more.</param>
    /// <param name="certainty">Between 0 and 1.</param>
    /// <param name="reserveShare">Share kept back on top, 0 or more.</param>
    /// <param name="pack">Eggs of the hatchery's pack, 1 or more.</param>
    public static EggOrder? Smallest(int wish, SurvivalKnown known, double certainty, double reserveShare, int pack)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wish, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(pack, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(reserveShare);
        int Handed(int order) => (int)Math.Floor(order / (1 + reserveShare));
        double Chance(int order) => ChanceOf(wish, Handed(order), known);

        // The chance only grows with the eggs, so the smallest is found by halving.
        var (below, reaches) = (0, Most / pack);
        if (reaches == 0 || Chance(reaches * pack) < certainty)
        {
            return null;
        }

        while (reaches - below > 1)
        {
            var middle = below + ((reaches - below) / 2);
            (below, reaches) = Chance(middle * pack) >= certainty ? (below, middle) : (middle, reaches);
        }

        var order = reaches * pack;
        var handed = Handed(order);
        var (low, high) = Within80(handed, known);
        return new EggOrder(handed, order - handed, order, Chance(order), low, high);
    }

    /// <summary>The chance that so many eggs give at least the wish: beta-binomial over groups of fish that live and die together.</summary>
    public static double ChanceOf(int wish, int eggs, SurvivalKnown known)
    {
        if (eggs < wish)
        {
            return 0;
        }

        var groups = Math.Max(1, (int)Math.Round(eggs / known.Alike));
        var needed = (int)Math.Ceiling(wish / (double)eggs * groups - 1e-9);
        return known.Share.AtLeast(needed, groups);
    }

    private static (int Low, int High) Within80(int eggs, SurvivalKnown known)
    {
        var groups = Math.Max(1, (int)Math.Round(eggs / known.Alike));
        return ((int)(known.Share.Quantile(0.1, groups) / (double)groups * eggs), (int)(known.Share.Quantile(0.9, groups) / (double)groups * eggs));
    }
}
