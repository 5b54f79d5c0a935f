using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>
/// First aid in a programme's own words. Its steps come before ours or instead of them; every caution of ours stays, and whoever writes
/// steps gets the cautions about plugs and remedies with them, whatever the trouble: we cannot know what the steps ask for.
/// </summary>
public static class OwnAid
{
    public static FirstAidScript Put(FirstAidScript ours, AidTopic topic, LifeStage stage, AidTank tank, Evidence? evidence = null)
    {
        var named = StageNames.Of(tank.Texts).In(ours);
        var figures = new AidPlaceholders(stage, tank, evidence);
        var instead = tank.Texts.Find(topic.InsteadKey);
        var own = Steps(instead ?? tank.Texts.Find(topic.BeforeKey), figures);
        var asked = tank.Texts.Find(topic.AskKey) is { } ask ? named with { AskNext = figures.In(new Bilingual(ask.En, ask.Es)) } : named;
        return own.Count == 0 ? asked : asked with
        {
            Say = [.. own, .. instead is null ? asked.Say : []],
            Own = own.Count,
            Cautions = Guarded(ours.Cautions),
        };
    }

    /// <summary>One step a line; both languages have as many.</summary>
    private static List<Bilingual> Steps(OwnText? text, AidPlaceholders figures) => text is null ? []
        : [.. text.En.Split('\n').Zip(text.Es.Split('\n'), (en, es) => figures.In(new Bilingual(en, es)))];

    private static IReadOnlyList<Bilingual> Guarded(IReadOnlyList<Bilingual> ours) =>
    [
        Warnings.AdultAtThePlug,
        .. ours.Except([Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.AgencyWins]),
        Warnings.NoRemedies,
        Warnings.AgencyWins,
    ];
}
