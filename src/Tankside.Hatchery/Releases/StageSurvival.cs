namespace Tankside.Hatchery.Releases;

/// <summary>One part of the way from egg to release, over the same finished tanks.</summary>
/// <param name="Alive">Alive at its end.</param>
/// <param name="Of">Alive at its beginning.</param>
/// <param name="Rate">If all that nobody can explain got past hatching.</param>
/// <param name="IfUnaccountedWereEggs">If all that nobody can explain were eggs that dissolved or were eaten; the truth lies between.</param>
public sealed record StageSurvival(int Alive, int Of, Survival Rate, Survival IfUnaccountedWereEggs);

/// <summary>
/// The named parts of survival. Nobody counts alevins, so hatched is what came alive less the eggs that died: dead on arrival stand in no
/// denominator here, and only in that of egg to release. Alive from the start, egg to hatch times hatch to release is released out of
/// all that came alive.
/// </summary>
public sealed record NamedSurvivals(PooledSurvival EggToRelease, StageSurvival EggToHatch, StageSurvival HatchToRelease)
{
    public static NamedSurvivals Over(IReadOnlyList<TankBalance> tanks)
    {
        var done = TankBalance.SumOf(tanks.Where(t => t.In > 0 && t.StillInTank == 0));
        var cameAlive = done.In - done.TransferredOut - done.DeadOnArrival;
        var hatched = cameAlive - done.EggLosses;
        var hatchedAtLeast = hatched - Math.Max(0, done.Unaccounted);
        return new NamedSurvivals(
            PooledSurvival.Over(tanks),
            new StageSurvival(hatched, cameAlive, Rate(hatched, cameAlive), Rate(hatchedAtLeast, cameAlive)),
            new StageSurvival(done.Released, hatched, Rate(done.Released, hatched), Rate(done.Released, hatchedAtLeast)));
    }

    private static Survival Rate(int alive, int of) => of > 0 ? Survival.Of(alive, of) : Survival.Unknown;
}
