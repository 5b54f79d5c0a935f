using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.Texts;

public sealed class StageNameForm
{
    public string? OneEn { get; set; }

    public string? ManyEn { get; set; }

    public string? OneEs { get; set; }

    public string? ManyEs { get; set; }

    /// <summary>Stands for the names as the person saw them.</summary>
    public string? Seen { get; set; }

    public static StageNameForm Of(LifeStage stage, OwnTexts texts)
    {
        var name = StageNames.NowOf(stage, texts);
        return new StageNameForm
        {
            OneEn = name.One.En,
            ManyEn = name.Many.En,
            OneEs = name.One.Es,
            ManyEs = name.Many.Es,
            Seen = KeepTexts.Seen(texts.Under(StageNames.StartOf(stage))),
        };
    }
}

/// <summary>What a stage is, and what it may be called.</summary>
public static class StageNameWords
{
    public const int Longest = 30;

    /// <summary>When the stage begins and ends.</summary>
    public static string Of(LifeStage stage) => stage switch
    {
        LifeStage.Egg => "until half have hatched",
        LifeStage.Alevin => "from hatch to swim-up, living on the yolk",
        LifeStage.Fry => "from swim-up on, eating",
    };

    /// <summary>The names to keep, none where they are ours; null when something was refused and a field says why.</summary>
    public static IReadOnlyList<OwnText>? Read(LifeStage stage, StageNameForm form, OwnTexts texts, Guid programmeId, Action<string, string> refuse)
    {
        var good = true;
        var others = Enum.GetValues<LifeStage>().Where(s => s != stage).Select(s => StageNames.NowOf(s, texts)).ToList();
        string[] english = [.. others.SelectMany(o => new[] { o.One.En, o.Many.En })], spanish = [.. others.SelectMany(o => new[] { o.One.Es, o.Many.Es })];
        OwnText[] read =
        [
            new() { ProgrammeId = programmeId, Key = StageNames.OneKey(stage), En = Name(nameof(form.OneEn), form.OneEn, english), Es = Name(nameof(form.OneEs), form.OneEs, spanish) },
            new() { ProgrammeId = programmeId, Key = StageNames.ManyKey(stage), En = Name(nameof(form.ManyEn), form.ManyEn, english), Es = Name(nameof(form.ManyEs), form.ManyEs, spanish) },
        ];
        var ours = StageNames.OursOf(stage);
        return !good ? null
            : (read[0].En, read[0].Es, read[1].En, read[1].Es) == (ours.One.En, ours.One.Es, ours.Many.En, ours.Many.Es) ? []
            : read;

        string Name(string field, string? typed, string[] taken)
        {
            var name = string.Join(' ', (typed ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries));
            var wrong = name.Length == 0 ? "Give the name in both languages. To have ours again use the button below."
                : name.Length > Longest ? $"At most {Longest} letters, please; these are {name.Length}."
                : !name.All(c => char.IsLetter(c) || c is ' ' or '-' or '’' or '\'') ? "Letters, spaces and hyphens only: the name stands in the middle of sentences."
                : taken.Contains(name, StringComparer.OrdinalIgnoreCase) ? "Another stage has this name: nobody could tell them apart."
                : null;
            if (wrong is not null)
            {
                good = false;
                refuse(field, wrong);
            }

            return name;
        }
    }
}
