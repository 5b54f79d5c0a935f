using Tankside.Portal.Digests.Announcements;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Flags.Texts;
using Tankside.Portal.Shell;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Texts that a programme writes itself, with words in braces.</summary>
public static class OwnWords
{
    private static readonly string[] Words = ["{tank}", "{set point}", "{ water now }", "{NAME}", "{name}", "{school}", "{}", "{{tank}}", "{tank", "tank}", "Look", "at it.", "\n", "1. Open the lid", "- Cool it", "Abra la tapa.", "•"];

    public static Target Target { get; } = new("own-words", dice => Texts.Bytes(Texts.Of(dice, Words, 10)), Read) { Words = Words, LongestInput = 20_000, MostBytesEach = 4_000 };

    private static string Read(byte[] bytes)
    {
        var text = Texts.Read(bytes);
        var wrong = Braces.Check(text, AidPlaceholders.Names);
        var filled = Braces.Fill(text, word => AidPlaceholders.Names.Contains(word, StringComparer.OrdinalIgnoreCase) ? "9 °C" : null);
        Held.That(wrong is not null || filled.AsSpan().IndexOfAny('{', '}') < 0, "A text whose braces are right keeps some when it is filled in.");
        Held.That(Braces.In(text).Count() <= text.Length / 2, "There are more words in braces than fit.");
        return $"{wrong} {FirstAid(text)} {Placeholders.Check(text) is null}";
    }

    private static string FirstAid(string text)
    {
        var refused = new List<string>();
        var topic = AidTopics.All[0];
        var form = new AidTextForm { StepsEn = text, StepsEs = text, Place = AidTextForm.Instead, AskEn = text, AskEs = text, ClassEn = text, ClassEs = text };
        var kept = AidTextRules.Read(topic, form, Guid.Empty, (_, why) => refused.Add(why));
        Held.That(kept is null == refused.Count > 0, "It was refused without a word, or taken in spite of one.");
        Held.Said(refused);
        foreach (var own in kept ?? [])
        {
            Held.That(own.En.Split('\n') is { Length: <= AidTextRules.MostSteps } steps && steps.All(s => s.Length is > 0 and <= AidTextRules.LongestQuestion), "Steps were taken that are too many, empty or too long.");
        }

        return $"{refused.Distinct().Count()}";
    }
}
