using System.Collections.Frozen;
using System.Globalization;
using System.Resources;

namespace Tankside.Portal.Shell;

/// <summary>
/// What an adult reads, in the adult's language. The English sentence is the key; the Spanish one stands in the Spanish.resx of the folder whose pages
/// say it. Only words change with the language: numbers, dates that are typed and everything stored stay as they are.
/// </summary>
public sealed class Say
{
    public const string English = "en", Spanish = "es";

    /// <summary>The languages there are, and how each names itself.</summary>
    public static readonly IReadOnlyDictionary<string, string> Languages = new Dictionary<string, string> { [English] = "English", [Spanish] = "Español" };

    public static readonly Say InEnglish = new(English, strict: true), InSpanish = new(Spanish, strict: true);

    private static readonly FrozenDictionary<string, string> SpanishTexts = Read();

    private readonly bool strict;

    private Say(string language, bool strict) => (Language, this.strict) = (language, strict);

    /// <summary>As browsers and documents name it.</summary>
    public string Language { get; }

    public bool IsSpanish => Language == Spanish;

    public CultureInfo Culture => CultureInfo.GetCultureInfo(Language);

    /// <summary>The language of the link to the same page in the other one.</summary>
    public string Other => IsSpanish ? English : Spanish;

    /// <param name="key">The English sentence. What follows an upright bar tells two meanings apart and is not shown.</param>
    /// <exception cref="KeyNotFoundException">There is no Spanish, outside production.</exception>
    public string this[string key] => IsSpanish ? Find(key) ?? (strict ? throw new KeyNotFoundException($"no Spanish for “{key}”") : Shown(key)) : Shown(key);

    public string Of(string key, params object?[] values) => string.Format(CultureInfo.InvariantCulture, this[key], values);

    /// <summary>The sentence for one or for many; {0} is the number, further values follow.</summary>
    public string Count(int number, string one, string many, params object?[] values) =>
        string.Format(CultureInfo.InvariantCulture, this[number == 1 ? one : many], [number.ToString("#,0", CultureInfo.InvariantCulture), .. values]);

    /// <summary>A sentence made where nobody knew who would read it, such as why a field was refused; as it is where there is no Spanish.</summary>
    public string Told(string text) => IsSpanish ? Find(text) ?? text : text;

    /// <summary>The same words for another language; English where it is not spoken.</summary>
    /// <param name="strict">False in production: a missing sentence is then shown in English.</param>
    public static Say In(string? language, bool strict) =>
        language != Spanish ? InEnglish : strict ? InSpanish : new Say(Spanish, strict: false);

    /// <summary>Every English sentence that has Spanish, with it.</summary>
    public static IReadOnlyDictionary<string, string> All => SpanishTexts;

    /// <summary>A sentence that stands with a small letter serves with a capital too: a resource file does not tell the two apart.</summary>
    private static string? Find(string key) =>
        SpanishTexts.TryGetValue(key, out var text) ? text
        : key.Length > 0 && char.IsUpper(key[0]) && SpanishTexts.TryGetValue(char.ToLowerInvariant(key[0]) + key[1..], out var small) ? char.ToUpper(small[0], CultureInfo.InvariantCulture) + small[1..]
        : null;

    private static string Shown(string key) => key.IndexOf('|', StringComparison.Ordinal) is > 0 and var bar ? key[..bar] : key;

    private static FrozenDictionary<string, string> Read()
    {
        var assembly = typeof(Say).Assembly;
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.EndsWith(".Spanish.resources", StringComparison.Ordinal)))
        {
            using var reader = new ResourceReader(assembly.GetManifestResourceStream(name)!);
            foreach (System.Collections.DictionaryEntry text in reader)
            {
                texts.Add((string)text.Key, (string)text.Value!);
            }
        }

        return texts.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
