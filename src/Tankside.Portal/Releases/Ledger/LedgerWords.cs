using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
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

    public static string Word(LineRefusal why, SeasonAtHand season, Say? reader = null) => why switch
    {
        LineRefusal.NothingCounted => "Type how many: 1 or more. Only a count of the living may be 0.",
        LineRefusal.TooMany => (reader ?? Say.InEnglish).Of("More than {0} is not likely in a classroom tank. Please look at the number again.", Figures.Of(LedgerRules.MostAtOnce)),
        LineRefusal.InTheFuture => "This is still to come. Give the day and time at which it happened.",
        LineRefusal.BeforeTheSeason => (reader ?? Say.InEnglish).Of("The season began on {0}. Please look at the day again.", SeasonAtHand.Day(season.Season!.StartsOn, reader)),
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
    public static IReadOnlyList<AccountEntry> In(TankBalance b, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        return [new(say["Received"], b.Received), .. b.TransferredIn == 0 ? Array.Empty<AccountEntry>() : [new(say["Moved in"], b.TransferredIn)]];
    }

    /// <param name="tanks">"the tank" or "the tanks", as the reader says it.</param>
    public static IReadOnlyList<AccountEntry> Ends(TankBalance b, string tanks, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        AccountEntry[] sometimes =
        [
            new(say["Dead on arrival"], b.DeadOnArrival), new(say["Eggs lost"], b.EggLosses), new(say["Alevins lost"], b.AlevinLosses),
            new(say["Fry lost"], b.FryLosses), new(say["Put down"], b.PutDown), new(say["Sampled"], b.Sampled), new(say["Moved out"], b.TransferredOut),
        ];
        return [new(say["Released"], b.Released), new(say.Of("In {0}", tanks), b.StillInTank), .. sometimes.Where(e => e.Count != 0)];
    }

    /// <summary>
    /// "9,412 eggs came in; 312 are released, 7,800 are still in the tanks, 1,259 died, 41 are unaccounted for." Every egg is in it once, so
    /// that the reader can add it up.
    /// </summary>
    public static string Answer(TankBalance b, string tanks, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        var died = b.DeadOnArrival + b.EggLosses + b.AlevinLosses + b.FryLosses + b.PutDown;
        string?[] ends =
        [
            say.Count(b.Released, "{0} is released", "{0} are released"),
            say.Count(b.StillInTank, "{0} is still in {1}", "{0} are still in {1}", tanks),
            say.Count(died, "{0} died|one", "{0} died"),
            b.Sampled == 0 ? null : say.Count(b.Sampled, "{0} is sampled", "{0} are sampled"),
            b.TransferredOut == 0 ? null : say.Count(b.TransferredOut, "{0} moved on|one", "{0} moved on"),
            b.Unaccounted switch
            {
                0 => say["none are unaccounted for"],
                < 0 => say.Of("{0} more are accounted for than came in", Figures.Of(-b.Unaccounted)),
                var some => say.Count(some, "{0} is unaccounted for", "{0} are unaccounted for"),
            },
        ];
        return $"{say.Count(b.In, "{0} egg came in", "{0} eggs came in")}; {string.Join(", ", ends.OfType<string>())}.";
    }
}
