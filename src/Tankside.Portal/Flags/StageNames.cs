using System.Text.RegularExpressions;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags;

/// <summary>What a stage is called: one of them, and many.</summary>
public sealed record StageName(Bilingual One, Bilingual Many);

/// <summary>
/// What a programme calls eggs, alevins and fry. Sentences are written with our names; where a programme has its own they are put in their
/// place when a sentence is said, all at once, so that a name of theirs may well be another of ours.
/// </summary>
public sealed class StageNames
{
    public const string Start = "stage.";

    /// <summary>Nothing is renamed.</summary>
    public static readonly StageNames Standard = new(OwnTexts.None);

    private readonly Dictionary<string, string> english = new(StringComparer.OrdinalIgnoreCase), spanish = new(StringComparer.OrdinalIgnoreCase);
    private readonly Regex? inEnglish, inSpanish;

    private StageNames(OwnTexts texts)
    {
        foreach (var stage in Enum.GetValues<LifeStage>())
        {
            var ours = OursOf(stage);
            Add(ours.One, texts.Find(OneKey(stage)));
            Add(ours.Many, texts.Find(ManyKey(stage))); // Where ours is the same for one and many, theirs for many stands.
        }

        (inEnglish, inSpanish) = (AnyOf(english.Keys), AnyOf(spanish.Keys));
    }

    /// <summary>Whether nothing is renamed.</summary>
    public bool AreOurs => ReferenceEquals(this, Standard);

    public static StageNames Of(OwnTexts texts) => texts.AnyUnder(Start) ? new StageNames(texts) : Standard;

    /// <summary>With what the keys of a stage's names begin.</summary>
    public static string StartOf(LifeStage stage) => $"{Start}{NameOf(stage)}.";

    public static string OneKey(LifeStage stage) => $"{StartOf(stage)}one";

    public static string ManyKey(LifeStage stage) => $"{StartOf(stage)}many";

    /// <summary>The stage of this name in addresses; null where there is none.</summary>
    public static LifeStage? Named(string? name) => Enum.GetValues<LifeStage>().Cast<LifeStage?>().FirstOrDefault(s => NameOf(s!.Value) == name);

    /// <summary>What a stage is called in a programme.</summary>
    public static StageName NowOf(LifeStage stage, OwnTexts texts)
    {
        var ours = OursOf(stage);
        return new(Now(texts.Find(OneKey(stage)), ours.One), Now(texts.Find(ManyKey(stage)), ours.Many));
    }

    public static string NameOf(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "egg",
        LifeStage.Alevin => "alevin",
        LifeStage.Fry => "fry",
    };

    public static StageName OursOf(LifeStage stage) => stage switch
    {
        LifeStage.Egg => new(new("egg", "huevo"), new("eggs", "huevos")),
        LifeStage.Alevin => new(new("alevin", "alevín"), new("alevins", "alevines")),
        LifeStage.Fry => new(new("fry", "cría"), new("fry", "crías")),
    };

    /// <param name="language">A language tag; whatever is not Spanish is English.</param>
    public string In(string text, string language)
    {
        var (find, names) = Bilingual.IsSpanish(language) ? (inSpanish, spanish) : (inEnglish, english);
        return find?.Replace(text, m => char.IsUpper(m.Value[0]) ? CountWords.Capital(names[m.Value]) : names[m.Value]) ?? text;
    }

    public Bilingual In(Bilingual text) => new(In(text.En, "en"), In(text.Es, "es"));

    public FirstAidScript In(FirstAidScript script) => AreOurs ? script : script with
    {
        Say = [.. script.Say.Select(In)],
        AskNext = In(script.AskNext),
    };

    private static Bilingual Now(OwnText? own, Bilingual ours) => own is null ? ours : new(own.En, own.Es);

    private void Add(Bilingual ours, OwnText? own)
    {
        if (own is not null)
        {
            (english[ours.En], spanish[ours.Es]) = (own.En, own.Es);
        }
    }

    /// <summary>Null where nothing is renamed.</summary>
    private static Regex? AnyOf(IReadOnlyCollection<string> names) => names.Count == 0 ? null
        : new Regex($@"\b(?:{string.Join('|', names.Select(Regex.Escape))})\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
}
