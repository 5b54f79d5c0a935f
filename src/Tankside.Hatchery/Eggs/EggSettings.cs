namespace Tankside.Hatchery.Eggs;

/// <summary>What a programme may set for itself about its eggs: the key it is stored under and the value where it set none.</summary>
public static class EggSettings
{
    /// <summary>Eggs a litre of tank is to hold: about one fingerling per half US gallon (common practice, no source).</summary>
    public static readonly (string Key, double Default) PerLitre = ("eggs.per-litre", 0.53);

    /// <summary>Share ordered on top and kept for a week after delivery: 5-15% are usual (common practice, no source).</summary>
    public static readonly (string Key, double Default) Reserve = ("eggs.reserve", 0.10);

    /// <summary>Eggs of one pack of the hatchery (no source: ask it).</summary>
    public static readonly (string Key, double Default) Pack = ("eggs.pack", 100);

    /// <summary>How surely the releases should reach the wish (judgement).</summary>
    public static readonly (string Key, double Default) Certainty = ("eggs.certainty", 0.8);

    public static double Of(this IReadOnlyDictionary<string, double> own, (string Key, double Default) setting) =>
        own.TryGetValue(setting.Key, out var value) ? value : setting.Default;
}
