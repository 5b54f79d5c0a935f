using System.Globalization;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags;

/// <summary>Numbers of tanks, eggs and fish in words.</summary>
public static class CountWords
{
    /// <summary>"1 tank", "48 tanks".</summary>
    public static string Count(int count, string one, string several) => $"{Number(count)} {(count == 1 ? one : several)}";

    /// <summary>"about 171 rainbow trout".</summary>
    public static string About(int fish, string name, Say? say = null) => (say ?? Say.InEnglish).Of("about {0} {1}|fish", Number(fish), name);

    /// <summary>How the fish of a tank ended, for a tank that holds none: "140 released, 51 lost, 3 unaccounted".</summary>
    public static string Ends(TankBalance balance, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        (int Count, string Word)[] ends =
        [
            (balance.Released, say["released"]),
            (balance.TransferredOut, say["moved to another tank"]),
            (balance.DeadOnArrival + balance.EggLosses + balance.AlevinLosses + balance.FryLosses, say["lost"]),
            (balance.PutDown, say["put down"]),
            (balance.Sampled, say["sampled"]),
            (balance.Unaccounted, say["unaccounted"]),
        ];
        return string.Join(", ", ends.Where(e => e.Count != 0).Select(e => $"{Number(e.Count)} {e.Word}"));
    }

    /// <summary>The first letter large, for the head of a line.</summary>
    public static string Capital(string words) => words.Length == 0 ? "" : $"{char.ToUpperInvariant(words[0])}{words[1..]}";

    public static string Number(int count) => count.ToString("#,0", CultureInfo.InvariantCulture);
}
