using Tankside.Hatchery.Eggs;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags.Texts;

/// <summary>What can be said in own words, in words.</summary>
public static class TextWords
{
    public const string Source = "common practice, no source; amounts are worked out for the tank";

    public const string StepsChange = "What is said first when this is wrong: your steps before ours or instead of them, your question, and what a class reads.";

    public const string Stays = "Every caution of ours. With steps of yours go those about plugs, remedies and the agency, whatever the trouble.";

    public const string AskChanges = "What is asked next. Where the evidence points to one cause, its own question is asked all the same.";

    public const string ClassChanges = "What a class reads its trouble is. Whom to tell and what not to touch stays.";

    public const string StageChanges = "The name stands in every sentence about the stage, for adults and for classes. Nothing else changes.";

    /// <summary>E.g. "first aid for warm water: steps before ours"; the key where it is no text of today's.</summary>
    public static string NameOf(string key) =>
        AidTopics.All.FirstOrDefault(t => key.StartsWith(t.Start, StringComparison.Ordinal)) is { } topic ? $"first aid for {topic.Name.En}: {PartOf(topic, key)}"
        : StageOf(key) is { } stage
            ? $"name of {StageNames.OursOf(stage).Many.En}, {(key == StageNames.OneKey(stage) ? "one of them" : "many")}"
        : key;

    /// <summary>Keys of the texts whose names have the word, so that a search by it finds their changes.</summary>
    public static IReadOnlyList<string> KeysNamed(string word) =>
        [.. Keys.Where(k => NameOf(k).Contains(word, StringComparison.OrdinalIgnoreCase))];

    private static IEnumerable<string> Keys =>
    [
        .. AidTopics.All.SelectMany(t => new[] { t.BeforeKey, t.InsteadKey, t.AskKey, t.ClassKey }),
        .. Enum.GetValues<LifeStage>().SelectMany(s => new[] { StageNames.OneKey(s), StageNames.ManyKey(s) }),
    ];

    /// <summary>Where the text is read and set.</summary>
    public static string Address(string key) =>
        AidTopics.All.FirstOrDefault(t => key.StartsWith(t.Start, StringComparison.Ordinal)) is { } topic ? AddressOf(topic)
        : StageOf(key) is { } stage ? $"/settings/stages/{StageNames.NameOf(stage)}"
        : "/settings";

    public static string AddressOf(AidTopic topic) => $"/settings/texts/{topic.Key}";

    private static LifeStage? StageOf(string key) =>
        Enum.GetValues<LifeStage>().Cast<LifeStage?>().FirstOrDefault(s => key.StartsWith(StageNames.StartOf(s!.Value), StringComparison.Ordinal));

    private static string PartOf(AidTopic topic, string key) =>
        key == topic.BeforeKey ? "steps before ours"
        : key == topic.InsteadKey ? "steps instead of ours"
        : key == topic.AskKey ? "the question"
        : "what a class reads";
}
