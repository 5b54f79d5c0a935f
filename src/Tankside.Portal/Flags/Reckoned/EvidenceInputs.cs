using System.Globalization;
using System.Reflection;
using System.Text;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Reckoned;

/// <summary>The numbers that a finding rests on, each by its name, as they were kept with it.</summary>
public static class EvidenceInputs
{
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        ["Limit"] = "limit",
        ["PerHour"] = "pace an hour",
        ["Tail"] = "chance of as many or more, if nothing were wrong",
        ["Ph"] = "pH",
        ["UnionizedN"] = "un-ionised ammonia, mg/L as N",
        ["TotalMgL"] = "total ammonia, mg/L",
        ["PassesAt"] = "passes the limit",
        ["SettlesAtC"] = "would settle at",
    };

    /// <summary>Properties that have a Spanish name, and values, as "Type.Value", that have a Spanish word; a test finds one that has none.</summary>
    public static IEnumerable<string> SpanishNames => EvidenceSpanish.Names.Keys;

    public static IEnumerable<string> SpanishWords => EvidenceSpanish.Words.Keys;

    /// <summary>In the order in which the finding has them; what is not known is left out.</summary>
    /// <param name="evidence">What is kept with the flag.</param>
    /// <param name="scale">How temperatures are written.</param>
    /// <param name="when">How moments are written.</param>
    /// <param name="reader">Whom they are said to; in English when left out.</param>
    public static IReadOnlyList<(string Name, string Value)> Of(Evidence evidence, ScaleWords scale, Func<DateTime, string> when, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        var isOfHeat = evidence is TemperatureEvidence or WarmingEvidence or ChillerEvidence;
        return [.. evidence.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(p => p.CanRead && p.Name is not ("EqualityContract" or "LooksLike") && p.GetIndexParameters().Length == 0)
            .Select(p => (Name: NameOf(p.Name, say), Value: Text(p.Name, p.GetValue(evidence))))
            .Where(i => i.Value is not null).Select(i => (i.Name, i.Value!))];

        string? Text(string name, object? value) => value switch
        {
            null => null,
            double pace when name == "PerHour" => $"{(pace * 1.8).ToString("0.#", CultureInfo.InvariantCulture)} °F ({pace.ToString("0.##", CultureInfo.InvariantCulture)} °C)",
            double c when name.EndsWith('C') || (name == "Limit" && isOfHeat) => scale.Both(c),
            double number => number.ToString(Math.Abs(number) < 0.01 ? "0.####" : "0.##", CultureInfo.InvariantCulture),
            int count => count.ToString("#,0", CultureInfo.InvariantCulture),
            bool yes => (yes, say.IsSpanish) switch { (true, true) => "sí", (true, false) => "yes", (false, _) => "no" },
            DateTime at => when(at),
            DateOnly day => day.ToString("ddd d MMM", say.IsSpanish ? say.Culture : CultureInfo.InvariantCulture),
            PassTimes pass => say.Of("{0} to {1}, likely {2}", when(pass.Low), when(pass.High), when(pass.Mid)),
            Enum word => say.IsSpanish && EvidenceSpanish.Words.TryGetValue($"{word.GetType().Name}.{word}", out var said) ? said : Spaced(word.ToString()),
            string text => text,
            _ => null,
        };
    }

    private static string NameOf(string name, Say say) =>
        say.IsSpanish && EvidenceSpanish.Names.TryGetValue(name, out var spanish) ? spanish
        : Names.TryGetValue(name, out var word) ? word : Spaced(name.EndsWith('C') && name.Length > 1 ? name[..^1] : name);

    /// <summary>"MissedDays" as "missed days".</summary>
    private static string Spaced(string name)
    {
        var said = new StringBuilder();
        foreach (var sign in name)
        {
            said.Append(char.IsUpper(sign) && said.Length > 0 ? " " : "").Append(char.ToLowerInvariant(sign));
        }

        return said.ToString();
    }
}
