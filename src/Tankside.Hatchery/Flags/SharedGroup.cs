using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Tanks that share something, asked whether trouble is crowded into them. Every tank has a chance: how likely one like others would look as
/// bad; 1 where nothing stands. The k worst of a group are held against the binomial of k tanks that bad among so many, with the base rate
/// raised where tanks outside are as bad, and Fisher's test may object wherever enough tanks stand outside for it to speak.
/// </summary>
public sealed class SharedGroup(SharedBy by, string code, IReadOnlyList<SharedCauseTank> tanks)
{
    public SharedBy By { get; } = by;

    public string Code { get; } = code;

    public IReadOnlyList<SharedCauseTank> Tanks { get; } = tanks;

    public bool HasSameTanks(SharedGroup other) => Tanks.Count == other.Tanks.Count && Tanks.All(other.Tanks.Contains);

    /// <summary>The strongest of the group's crowds, or null where fewer than the fewest are in trouble.</summary>
    /// <param name="chances">Of every tank of the programme that is looked at.</param>
    public Crowd? Strongest(IReadOnlyDictionary<SharedCauseTank, double> chances, LimitSet limits)
    {
        var least = limits[Limits.SharedCut];
        var inTrouble = Tanks.Where(t => chances.TryGetValue(t, out var c) && c <= least).OrderBy(t => chances[t]).ToList();
        var fewest = Math.Max(2, (int)limits[Limits.SharedFewest]);
        if (inTrouble.Count < fewest)
        {
            return null;
        }

        var looked = Tanks.Count(chances.ContainsKey);
        var outside = chances.Where(c => !Tanks.Contains(c.Key)).Select(c => c.Value).ToList();
        Crowd? best = null;
        for (var k = fewest; k <= inTrouble.Count; k++)
        {
            var cut = chances[inTrouble[k - 1]];
            var ties = k < inTrouble.Count && chances[inTrouble[k]] <= cut;
            if (!ties && IsSpread(inTrouble.Take(k)) && Weigh(inTrouble.GetRange(0, k), looked, cut, outside, limits) is { } crowd
                && !(best?.Tail <= crowd.Tail))
            {
                best = crowd;
            }
        }

        return best;
    }

    /// <summary>A region's power and a main's water reach more than one school; a lot or a batch may stand in one.</summary>
    private bool IsSpread(IEnumerable<SharedCauseTank> crowd) =>
        By is not (SharedBy.Area or SharedBy.Water) || crowd.Select(t => t.School ?? t.Code).Distinct().Skip(1).Any();

    private Crowd? Weigh(List<SharedCauseTank> crowd, int looked, double cut, List<double> outside, LimitSet limits)
    {
        var asBad = outside.Count(c => c <= cut);
        var weight = limits[Limits.SharedBaseWeight];
        var rate = Math.Max(cut, ((cut * weight) + asBad) / (weight + outside.Count));
        var fisher = Fisher.UpperTail(crowd.Count, looked, asBad, outside.Count);
        var couldSpeak = Fisher.UpperTail(crowd.Count, looked, 0, outside.Count) <= limits[Limits.SharedObjection];
        return couldSpeak && fisher > limits[Limits.SharedObjection]
            ? null
            : new Crowd(this, crowd, Binomial.UpperTail(crowd.Count, looked, rate), fisher);
    }
}

/// <summary>Tanks of a group that are in trouble together.</summary>
/// <param name="Tail">Chance of so many so bad if nothing were shared.</param>
/// <param name="Fisher">Chance that as many of the programme's troubles fall into the group blindly; 1 without tanks outside.</param>
public sealed record Crowd(SharedGroup Group, IReadOnlyList<SharedCauseTank> Tanks, double Tail, double Fisher);
