namespace Tankside.Hatchery.Flags.Rules;

/// <summary>White fluff on eggs or fish. It starts on dead eggs, and spreads faster where they are left.</summary>
public static class FungusRules
{
    /// <summary>A count this long before the word on fungus was of the same picking.</summary>
    private static readonly TimeSpan SameRound = TimeSpan.FromHours(12);

    public static Finding? FungusSeen(Situation s)
    {
        if (s.LastTold(r => r.Fungus) is not { Seen.Fungus: true } said)
        {
            return null;
        }

        var picked = s.Told.Where(r => r.At >= said.At - SameRound && (r.Seen.DeadEggs ?? r.Seen.DeadAlevins ?? r.Seen.DeadFry) is not null).ToList();
        var left = !s.Swims && picked.Count == 0;
        var since = s.Told.Reverse().Where(r => r.Seen.Fungus is not null).TakeWhile(r => r.Seen.Fungus == true).Last().At;
        var evidence = new FungusEvidence(
            s.Stage, said.At, since, picked.Count == 0 ? null : picked.Sum(r => (r.Seen.DeadEggs ?? 0) + (r.Seen.DeadAlevins ?? 0) + (r.Seen.DeadFry ?? 0)), left);
        var hazard = Hazard.Around(said.At, s.Limits[Limits.Losses.FungusHours], s.Limits[left ? Limits.Losses.FungusLeftShare : Limits.Losses.FungusShare]);
        return new Finding(FlagKind.Fungus, Urgency.Today, said.At, evidence, hazard);
    }
}
