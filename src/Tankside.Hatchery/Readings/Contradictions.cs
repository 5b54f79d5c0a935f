namespace Tankside.Hatchery.Readings;

/// <summary>Two answers of one look that cannot both be true, by the API's names of their fields.</summary>
public sealed record Contradiction(string One, string Other);

/// <summary>
/// What a single look cannot say at once. Who is still at the tank is asked; what comes in all the same is for the coordinator
/// (<c>contradictory</c>). One look at the fish decides each of them, nothing else does.
/// </summary>
public static class Contradictions
{
    public static IReadOnlyList<Contradiction> In(Observation seen)
    {
        var found = new List<Contradiction>();
        if (seen.Hatched == Share.None)
        {
            Add(seen.Swimming >= Share.Some, "hatched", "swimming");
            Add(seen.DeadAlevins > 0, "hatched", "deadAlevins");
            Add(seen.DeadFry > 0, "hatched", "deadFry");
            Add(seen.Fed == true, "hatched", "fed");
        }
        else
        {
            Add(seen.Swimming > seen.Hatched, "hatched", "swimming");
        }

        return found;

        void Add(bool holds, string one, string other)
        {
            if (holds)
            {
                found.Add(new Contradiction(one, other));
            }
        }
    }
}
