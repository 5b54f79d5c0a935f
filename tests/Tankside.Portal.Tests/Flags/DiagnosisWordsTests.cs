using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags;

namespace Tankside.Portal.Tests.Flags;

public class DiagnosisWordsTests
{
    private static Diagnosis Found(Suspect? leading, WaterCourse course, Dictionary<NextQuestion, bool>? known = null, params Suspect[] remaining) =>
        new(leading, [.. remaining.Select(s => new Suspicion(s, 0.3))], null, course, known ?? []);

    [Fact]
    public void A_leading_suspect_is_named_with_its_grounds() => Assert.Equal(
        "Looks like the chiller itself: the water rises with pump and air on, chiller off.",
        DiagnosisWords.Of(Found(Suspect.ChillerDead, WaterCourse.Rising, new()
        {
            [NextQuestion.WaterMoving] = true,
            [NextQuestion.Bubbles] = true,
            [NextQuestion.ChillerRunning] = false,
        })));

    [Fact]
    public void Those_that_remain_are_named_together() => Assert.Equal(
        "Could be this tank's plug or breaker, a power cut or the pump: pump, air and chiller off.",
        DiagnosisWords.Of(Found(
            null,
            WaterCourse.Unknown,
            new() { [NextQuestion.WaterMoving] = false, [NextQuestion.Bubbles] = false, [NextQuestion.ChillerRunning] = false },
            Suspect.PlugOrBreaker,
            Suspect.PowerCut,
            Suspect.PumpStopped)));

    [Fact]
    public void Nothing_seen_is_not_worded() =>
        Assert.Equal("Could be the pump or the air pump or stone.", DiagnosisWords.Of(Found(null, WaterCourse.Unknown, null, Suspect.PumpStopped, Suspect.AirStopped)));

    [Fact]
    public void Ice_is_not_said_twice_and_no_fault_is_not_said_at_all()
    {
        var ice = new IceEvidence(LifeStage.Egg, true, 3.3, DateTime.UnixEpoch, 10.5);

        Assert.Equal("", DiagnosisWords.EndOf(ice with { LooksLike = Suspect.CoilIced }));
        Assert.Equal("", DiagnosisWords.EndOf(ice with { LooksLike = Suspect.NothingWrong }));
        Assert.Equal("", DiagnosisWords.EndOf(ice));
        Assert.Equal("; looks like a wrong thermometer", DiagnosisWords.EndOf(ice with { LooksLike = Suspect.Thermometer }));
    }

    [Fact]
    public void Every_suspect_and_every_question_has_words_of_its_own()
    {
        Assert.Distinct(Enum.GetValues<Suspect>().Select(DiagnosisWords.Of));
        Assert.Distinct(Enum.GetValues<NextQuestion>().Select(DiagnosisWords.Of));
        Assert.All(Enum.GetValues<NextQuestion>(), q => Assert.EndsWith("?", DiagnosisWords.Of(q), StringComparison.Ordinal));
    }
}
