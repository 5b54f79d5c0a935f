using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Sealing;

/// <summary>Why an account cannot be closed, in words.</summary>
public static class SealWords
{
    public static string Word(SealRefusal why, SeasonTotals totals) => why switch
    {
        SealRefusal.NothingReceived => "No eggs have come in this season, so there is no account to seal.",
        SealRefusal.FishInTanks => $"{Figures.Of(totals.Sum.StillInTank)} fish are still in {Holding(totals)}. Enter what became of them, then close those tanks; what stays unexplained is shown as unaccounted.",
        SealRefusal.DoesNotBalance => "A row of the account does not balance. This is a fault of the program; please tell whoever looks after it.",
    };

    private static string Holding(SeasonTotals totals)
    {
        var tanks = totals.Tanks.Where(t => t.Balance.StillInTank > 0).Select(t => t.Tank).ToList();
        return tanks.Count <= 8 ? string.Join(", ", tanks) : $"{string.Join(", ", tanks.Take(8))} and {Figures.Of(tanks.Count - 8)} more tanks";
    }
}
