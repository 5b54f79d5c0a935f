using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Why a release is not entered, and what to do about it.</summary>
public static class RefusalWords
{
    public static string Word(ReleaseRefusal why, PermitUse use, ReleaseSite site, string tank, EggLot? lot, Say say)
    {
        var permit = use.Permit;
        return why switch
        {
            ReleaseRefusal.NothingCounted => say["Type how many fish were counted, 1 or more. If none lived to be released, close the tank instead."],
            ReleaseRefusal.WrongSpecies =>
                say.Of("Permit {0} is for {1}, and {2} holds {3}. Choose the permit for these fish, or ask your coordinator for one.", permit.Number, SpokenFish.Of(permit.Species, say), tank, SpokenFish.Of(lot!.Species, say)),
            ReleaseRefusal.WrongWater =>
                say.Of("Permit {0} is for {1}, and {2} is on {3}. Fish may go only into the permit’s own water: choose the site or the permit that fits, or ring your coordinator before anything is let go.", permit.Number, permit.Water, site.Name, site.Water),
            ReleaseRefusal.OutOfSeason =>
                say.Of("Permit {0} covers {1} to {2}. Look at the day, or ask your coordinator for a permit that covers it.", permit.Number, SeasonAtHand.Day(permit.From, say), SeasonAtHand.Day(permit.To, say)),
            ReleaseRefusal.OverPermit when use.Left <= 0 =>
                say.Of("Permit {0} is used up: {1} of {2} fish are released. Ask your coordinator which permit covers these fish.", permit.Number, Figures.Of(use.Released), Figures.Of(permit.Fish)),
            ReleaseRefusal.OverPermit =>
                say.Of("Permit {0} has {1} of {2} fish left. Look at the number. If it is right, ask your coordinator now: the agency must know.", permit.Number, Figures.Of(use.Left), Figures.Of(permit.Fish)),
            ReleaseRefusal.InTheFuture => say["This day is still to come. Enter a release after it has happened."],
            ReleaseRefusal.NoEggsReceived => say.Of("No eggs or fish ever came to {0} by its ledger. Enter the delivery or the move first, or choose another tank.", tank),
            ReleaseRefusal.TankClosed => say.Of("{0} is closed. If the fish came from it, open it again on its ledger page, enter the release, and close it.", tank),
            ReleaseRefusal.NilReported => say.Of("The agency was told that nothing was released on permit {0}. Choose another permit, or let the coordinator take that report back first.", permit.Number),
        };
    }

    public static string FieldOf(ReleaseRefusal why) => why switch
    {
        ReleaseRefusal.NothingCounted or ReleaseRefusal.OverPermit => nameof(ReleaseForm.Fish),
        ReleaseRefusal.WrongSpecies or ReleaseRefusal.NilReported => nameof(ReleaseForm.Permit),
        ReleaseRefusal.WrongWater => nameof(ReleaseForm.Site),
        ReleaseRefusal.OutOfSeason or ReleaseRefusal.InTheFuture => nameof(ReleaseForm.Day),
        ReleaseRefusal.NoEggsReceived or ReleaseRefusal.TankClosed => nameof(ReleaseForm.Tank),
    };
}
