using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>The ledger in words.</summary>
public static class LedgerWords
{
    public static string Word(this LedgerKind kind) => kind switch
    {
        LedgerKind.Received => "Eggs received",
        LedgerKind.DeadOnArrival => "Dead on arrival",
        LedgerKind.EggLoss => "Eggs lost",
        LedgerKind.AlevinLoss => "Alevins lost",
        LedgerKind.FryLoss => "Fry lost",
        LedgerKind.PutDown => "Put down",
        LedgerKind.Sampled => "Sampled",
        LedgerKind.TransferredIn => "Moved in",
        LedgerKind.TransferredOut => "Moved out",
        LedgerKind.Released => "Released",
        LedgerKind.Counted => "The living counted",
    };

    public static string Word(this CountMethod method) => method switch
    {
        CountMethod.Hand => "one by one",
        CountMethod.Photo => "on a photo",
        CountMethod.Weight => "by weight",
        CountMethod.Volume => "by volume",
        CountMethod.Estimate => "estimated",
    };

    /// <summary>Offered among the ways of counting, because people look for it, and refused with the reason.</summary>
    public const string Subtraction = nameof(Subtraction);

    /// <summary>How it was counted; taking the dead that were found from the start is refused, because it is none.</summary>
    public static CountMethod Method(TypedFields typed, string field, string? chosen)
    {
        if (chosen != Subtraction)
        {
            return typed.Choice<CountMethod>(field, chosen, "Say how they were counted.");
        }

        typed.Refuse(field, "“Received, less the dead” is not a count: most dead are never found, so it always says too many. Count the living, or leave the line out; the ledger does this sum by itself.");
        return default;
    }

    public static string Choice(this LedgerKind kind) => kind switch
    {
        LedgerKind.EggLoss => "Eggs found dead",
        LedgerKind.AlevinLoss => "Alevins (sac fry) found dead",
        LedgerKind.FryLoss => "Fry found dead",
        LedgerKind.PutDown => "Put down (deformed or sick, as the biologist said)",
        LedgerKind.Sampled => "Taken as a sample",
        LedgerKind.Counted => "All the living, counted",
        _ => kind.Word(),
    };

    public static string Word(LineRefusal why, SeasonAtHand season) => why switch
    {
        LineRefusal.NothingCounted => "Type how many: 1 or more. Only a count of the living may be 0.",
        LineRefusal.TooMany => $"More than {Figures.Of(LedgerRules.MostAtOnce)} is not likely in a classroom tank. Please look at the number again.",
        LineRefusal.InTheFuture => "This is still to come. Give the day and time at which it happened.",
        LineRefusal.BeforeTheSeason => $"The season began on {SeasonAtHand.Day(season.Season!.StartsOn)}. Please look at the day again.",
        LineRefusal.TankClosed => "This tank is closed, so nothing can come to it or be counted in it. Open it again first.",
        LineRefusal.MoreDeadThanCame => "More dead on arrival than eggs received. Count the dead among the eggs received, not on top of them.",
        LineRefusal.OverAllotment => "These are more eggs than were allotted to this tank. Say in the note who agreed, and send it again.",
        LineRefusal.OtherLot => "The two tanks hold different lots. Say in the note why they are put together, and send it again.",
        LineRefusal.SameTank => "The fish are in this tank already. Choose the tank they moved to.",
    };

    public static string Word(CorrectionRefusal why) => why switch
    {
        CorrectionRefusal.AlreadyCorrected => "This line has been taken back already.",
        CorrectionRefusal.IsACorrection => "This line takes another one back. Enter a new line instead.",
        CorrectionRefusal.OfAReading => "This line came with a reading of the class. Correct the reading, and the ledger follows.",
        CorrectionRefusal.OfARelease => "This line came with a release. Take the release back on the releases page, and the ledger follows.",
    };

    /// <summary>The account's picture: where everything came from and where it went.</summary>
    public static IReadOnlyList<AccountEntry> In(TankBalance b) =>
        [new("Received", b.Received), .. b.TransferredIn == 0 ? Array.Empty<AccountEntry>() : [new("Moved in", b.TransferredIn)]];

    /// <param name="tanks">"the tank" or "the tanks".</param>
    public static IReadOnlyList<AccountEntry> Ends(TankBalance b, string tanks)
    {
        AccountEntry[] sometimes =
        [
            new("Dead on arrival", b.DeadOnArrival), new("Eggs lost", b.EggLosses), new("Alevins lost", b.AlevinLosses), new("Fry lost", b.FryLosses),
            new("Put down", b.PutDown), new("Sampled", b.Sampled), new("Moved out", b.TransferredOut),
        ];
        return [new("Released", b.Released), new($"In {tanks}", b.StillInTank), .. sometimes.Where(e => e.Count != 0)];
    }

    /// <summary>
    /// "9,412 eggs came in; 312 are released, 7,800 are still in the tanks, 1,259 died, 41 are unaccounted for." Every egg is in it once, so
    /// that the reader can add it up.
    /// </summary>
    public static string Answer(TankBalance b, string tanks)
    {
        var rest = b.Unaccounted switch
        {
            0 => "none are unaccounted for",
            < 0 => $"{Figures.Of(-b.Unaccounted)} more are accounted for than came in",
            1 => "1 is unaccounted for",
            var many => $"{Figures.Of(many)} are unaccounted for",
        };
        return $"{Figures.Of(b.In, "egg", "eggs")} came in; {Figures.Of(b.Released)} {Are(b.Released)} released, "
            + $"{Figures.Of(b.StillInTank)} {Are(b.StillInTank)} still in {tanks}, "
            + $"{Figures.Of(b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown)} died, "
            + (b.Sampled == 0 ? "" : $"{Figures.Of(b.Sampled)} {Are(b.Sampled)} sampled, ")
            + (b.TransferredOut == 0 ? "" : $"{Figures.Of(b.TransferredOut)} moved on, ")
            + $"{rest}.";
    }

    private static string Are(int count) => count == 1 ? "is" : "are";
}
