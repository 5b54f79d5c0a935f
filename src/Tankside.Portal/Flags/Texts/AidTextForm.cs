using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags.Texts;

public sealed class AidTextForm
{
    public const string Look = "look", Instead = "instead";

    /// <summary>One step a line.</summary>
    public string? StepsEn { get; set; }

    public string? StepsEs { get; set; }

    /// <summary>Whether the steps come before ours or instead of them.</summary>
    public string? Place { get; set; }

    public string? AskEn { get; set; }

    public string? AskEs { get; set; }

    public string? ClassEn { get; set; }

    public string? ClassEs { get; set; }

    /// <summary>For which tank it is shown: a tank's code, or a stage of a made-up one.</summary>
    public string? Shown { get; set; }

    /// <summary>Whether it is only looked at.</summary>
    public string? Do { get; set; }

    /// <summary>Stands for the texts as the person saw them.</summary>
    public string? Seen { get; set; }

    public static AidTextForm Of(AidTopic topic, OwnTexts texts)
    {
        var (instead, ask, told) = (texts.Find(topic.InsteadKey), texts.Find(topic.AskKey), texts.Find(topic.ClassKey));
        var steps = instead ?? texts.Find(topic.BeforeKey);
        return new AidTextForm
        {
            StepsEn = steps?.En,
            StepsEs = steps?.Es,
            Place = instead is null ? null : Instead,
            AskEn = ask?.En,
            AskEs = ask?.Es,
            ClassEn = told?.En,
            ClassEs = told?.Es,
        };
    }
}
