using System.Globalization;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Releases.Totals;

/// <summary>What the numbers of a season's totals are made of, from the very sums that the page shows.</summary>
public static class SurvivalNumbers
{
    public static Opening Of(NamedSurvivals named)
    {
        var (pooled, hatch, fry) = (named.EggToRelease, named.EggToHatch, named.HatchToRelease);
        return new Opening(
            [
                ("Finished tanks", $"{Figures.Of(pooled.Finished)} of {Figures.Of(pooled.Supplied)} that were supplied"),
                ("Egg to release", Row(pooled.Released, pooled.Of, pooled.Rate)),
                ("Egg to hatch", Row(hatch.Alive, hatch.Of, hatch.Rate)),
                ("Hatch to release", Row(fry.Alive, fry.Of, fry.Rate)),
                ("z", "1.96, for 95 %"),
            ],
            "p = alive at the end ÷ alive at the beginning n, summed over the same finished tanks. Wilson’s interval: (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) ÷ (1 + z²/n). It has no ends where more came out than went in.",
            "Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3; docs/science/losses.md; docs/totals.md");
    }

    public static Opening Account(TankBalance sum) => new(
        [
            ("Came in", Figures.Of(sum.In)),
            ("Dead on arrival", Figures.Of(sum.DeadOnArrival)),
            ("Lost as eggs, alevins, fry", $"{Figures.Of(sum.EggLosses)}, {Figures.Of(sum.AlevinLosses)}, {Figures.Of(sum.FryLosses)}"),
            ("Put down", Figures.Of(sum.PutDown)),
            ("Sampled", Figures.Of(sum.Sampled)),
            ("Moved out", Figures.Of(sum.TransferredOut)),
            ("Released", Figures.Of(sum.Released)),
            ("Still in tanks", Figures.Of(sum.StillInTank)),
            ("Unaccounted", Figures.Of(sum.Unaccounted)),
        ],
        "Came in = dead on arrival + losses + put down + sampled + moved out + released + still in tanks + unaccounted. A move between two tanks of the season is in neither sum. Unaccounted is what no line explains; it may be negative.",
        "the fish ledger of each tank, line by line; docs/totals.md");

    private static string Row(int alive, int of, Survival rate) => rate.Percent is null
        ? "not known yet"
        : string.Create(CultureInfo.InvariantCulture, $"{Figures.Of(alive)} of {Figures.Of(of)} = {Figures.Percent(rate.Percent)}{(rate.Low is null ? "" : $" ({rate.Low:0.00} to {rate.High:0.00})")}");
}
