using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Releases.Permits;

/// <summary>Why a release is not entered, and what to do about it.</summary>
public static class RefusalWords
{
    public static string Word(ReleaseRefusal why, PermitUse use, ReleaseSite site, string tank, EggLot? lot)
    {
        var permit = use.Permit;
        return why switch
        {
            ReleaseRefusal.NothingCounted => "Type how many fish were counted, 1 or more. If none lived to be released, close the tank instead.",
            ReleaseRefusal.WrongSpecies =>
                $"Permit {permit.Number} is for {SpeciesCodes.CommonName(permit.Species)}, and {tank} holds {SpeciesCodes.CommonName(lot!.Species)}. Choose the permit for these fish, or ask your coordinator for one.",
            ReleaseRefusal.WrongWater =>
                $"Permit {permit.Number} is for {permit.Water}, and {site.Name} is on {site.Water}. Fish may go only into the permit’s own water: choose the site or the permit that fits, or ring your coordinator before anything is let go.",
            ReleaseRefusal.OutOfSeason =>
                $"Permit {permit.Number} covers {SeasonAtHand.Day(permit.From)} to {SeasonAtHand.Day(permit.To)}. Look at the day, or ask your coordinator for a permit that covers it.",
            ReleaseRefusal.OverPermit when use.Left <= 0 =>
                $"Permit {permit.Number} is used up: {Figures.Of(use.Released)} of {Figures.Of(permit.Fish)} fish are released. Ask your coordinator which permit covers these fish.",
            ReleaseRefusal.OverPermit =>
                $"Permit {permit.Number} has {Figures.Of(use.Left)} of {Figures.Of(permit.Fish)} fish left. Look at the number. If it is right, ask your coordinator now: the agency must know.",
            ReleaseRefusal.InTheFuture => "This day is still to come. Enter a release after it has happened.",
            ReleaseRefusal.NoEggsReceived => $"No eggs or fish ever came to {tank} by its ledger. Enter the delivery or the move first, or choose another tank.",
            ReleaseRefusal.TankClosed => $"{tank} is closed. If the fish came from it, open it again on its ledger page, enter the release, and close it.",
            ReleaseRefusal.NilReported => $"The agency was told that nothing was released on permit {permit.Number}. Choose another permit, or let the coordinator take that report back first.",
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
