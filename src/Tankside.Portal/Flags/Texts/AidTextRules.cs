using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Texts;

/// <summary>Reads first aid in own words: both languages, as many steps in each, short enough to be read out and sent.</summary>
public static partial class AidTextRules
{
    public const int MostSteps = 8, LongestStep = 160, LongestQuestion = 200;

    /// <summary>The texts to keep, without those that are left to us; null when something was refused and a field says why.</summary>
    public static IReadOnlyList<OwnText>? Read(AidTopic topic, AidTextForm form, Guid programmeId, Action<string, string> refuse)
    {
        var good = true;
        var texts = new List<OwnText>();
        Add(form.Place == AidTextForm.Instead ? topic.InsteadKey : topic.BeforeKey, nameof(form.StepsEn), Steps(form.StepsEn), nameof(form.StepsEs), Steps(form.StepsEs), LongestStep);
        Add(topic.AskKey, nameof(form.AskEn), Line(form.AskEn), nameof(form.AskEs), Line(form.AskEs), LongestQuestion);
        if (topic.ForClass)
        {
            Add(topic.ClassKey, nameof(form.ClassEn), Line(form.ClassEn?.TrimEnd('.', ' ')), nameof(form.ClassEs), Line(form.ClassEs?.TrimEnd('.', ' ')), ClassLines.Longest, braces: false);
        }

        return good ? texts : null;

        void Add(string key, string fieldEn, string[] en, string fieldEs, string[] es, int longest, bool braces = true)
        {
            if (en.Length == 0 && es.Length == 0)
            {
                return;
            }

            if (en.Length == 0 || es.Length == 0)
            {
                Refuse(en.Length == 0 ? fieldEn : fieldEs, "Write it in both languages, or leave both empty: who reads the other one would get nothing.");
                return;
            }

            if (en.Length != es.Length)
            {
                Refuse(fieldEs, $"One step a line, the same steps in both languages: English has {en.Length}, Spanish {es.Length}.");
            }

            Check(fieldEn, en, longest, braces);
            Check(fieldEs, es, longest, braces);
            texts.Add(new OwnText { ProgrammeId = programmeId, Key = key, En = string.Join('\n', en), Es = string.Join('\n', es) });
        }

        void Check(string field, string[] lines, int longest, bool braces)
        {
            if (lines.Length > MostSteps)
            {
                Refuse(field, $"At most {MostSteps} steps, please; these are {lines.Length}.");
            }

            if (lines.Index().FirstOrDefault(l => l.Item.Length > longest) is { Item: { } line } at)
            {
                Refuse(field, $"{(lines.Length > 1 ? $"Step {at.Index + 1}: at" : "At")} most {longest} letters, please; these are {line.Length}.");
            }

            var wrong = braces ? Braces.Check(string.Join('\n', lines), AidPlaceholders.Names)
                : lines[0].IndexOfAny(['{', '}']) >= 0 ? "No braces here: a class reads it as it stands." : null;
            if (wrong is not null)
            {
                Refuse(field, wrong);
            }
        }

        void Refuse(string field, string why)
        {
            good = false;
            refuse(field, why);
        }
    }

    /// <summary>Whoever numbers the lines gets no second number before them.</summary>
    private static string[] Steps(string? typed) =>
        [.. (typed ?? "").ReplaceLineEndings("\n").Split('\n').Select(l => Number().Replace(l, "").Trim()).Where(l => l.Length > 0)];

    private static string[] Line(string? typed) => (typed ?? "").ReplaceLineEndings(" ").Trim() is { Length: > 0 } line ? [line] : [];

    [GeneratedRegex(@"^\s*(?:\d{1,2}[.)]|[-•*])\s+")]
    private static partial Regex Number();
}
