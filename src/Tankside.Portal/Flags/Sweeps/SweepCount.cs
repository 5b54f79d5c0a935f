using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>How many schools under a mark answered what.</summary>
public sealed record SweepCount(int Marked, int Well, int Trouble, int PowerOff, int NobodyThere)
{
    public int Answered => Well + Trouble + PowerOff + NobodyThere;

    public int Silent => Marked - Answered;

    public static SweepCount Of(IEnumerable<SchoolWord?> words)
    {
        var all = words.Select(w => w?.Answer).ToList();
        return new SweepCount(
            all.Count, all.Count(a => a == SweepAnswer.AllWell), all.Count(a => a == SweepAnswer.Trouble),
            all.Count(a => a == SweepAnswer.PowerOff), all.Count(a => a == SweepAnswer.NobodyThere));
    }

    /// <summary>"14 schools marked, 9 answered, 2 have trouble, 1 has no power, 5 silent".</summary>
    public string Words
    {
        get
        {
            string?[] parts =
            [
                $"{CountWords.Count(Marked, "school", "schools")} marked",
                $"{Answered} answered",
                Trouble > 0 ? $"{Trouble} {(Trouble == 1 ? "has" : "have")} trouble" : null,
                PowerOff > 0 ? $"{PowerOff} {(PowerOff == 1 ? "has" : "have")} no power" : null,
                NobodyThere > 0 ? $"at {NobodyThere} nobody is there" : null,
                Silent > 0 ? $"{Silent} silent" : null,
            ];
            return string.Join(", ", parts.OfType<string>());
        }
    }
}
