using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Fish that gasp at the surface, from when it was first said until somebody says that they do not.</summary>
internal static class Gasping
{
    /// <summary>The unbroken words that fish gasp, newest first; empty when the newest word is that they do not, or is too old.</summary>
    public static IReadOnlyList<ReadingFact> Said(Situation s) =>
        WaterTests.Newest(s, r => r.Gasping) is { Seen.Gasping: true }
            ? [.. s.Told.Reverse().Where(r => r.Seen.Gasping is not null).TakeWhile(r => r.Seen.Gasping == true)]
            : [];

    /// <summary>The newest word that fish gasp so soon after a water change, and the change.</summary>
    public static (ReadingFact Gasp, ReadingFact Change)? AfterAChange(Situation s)
    {
        var hours = s.Limits[Limits.GaspingAfterChange];
        return Said(s)
            .Select(gasp => (Gasp: gasp, Change: s.Told.LastOrDefault(r =>
                r.Seen.WaterChangedPercent > 0 && r.At <= gasp.At && r.At >= gasp.At.AddHours(-hours))))
            .Where(pair => pair.Change is not null)
            .Select(pair => ((ReadingFact, ReadingFact)?)(pair.Gasp, pair.Change!))
            .FirstOrDefault();
    }
}
