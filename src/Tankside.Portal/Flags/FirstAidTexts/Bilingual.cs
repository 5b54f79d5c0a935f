namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>One sentence in both languages: where one is missing, it does not compile.</summary>
public sealed record Bilingual(string En, string Es)
{
    /// <summary>The languages that first aid is written in.</summary>
    public static IReadOnlyList<string> Languages { get; } = ["en", "es"];

    /// <param name="language">A language tag; whatever is not Spanish is answered in English.</param>
    public string In(string language) => IsSpanish(language) ? Es : En;

    public static bool IsSpanish(string language) => language.StartsWith("es", StringComparison.OrdinalIgnoreCase);
}
