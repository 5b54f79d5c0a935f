using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.FirstAidTexts;

/// <summary>Where a programme's own steps stand, by direct call.</summary>
public class OwnStepsTests
{
    private static readonly Bilingual[] Always = [Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.AgencyWins];

    public static TheoryData<string> Topics => [.. AidTopics.All.Select(t => t.Key)];

    private static AidTank Saying(params (string Key, string En, string Es)[] own) =>
        new() { Code = "A001", Texts = new OwnTexts(own.Select(o => new OwnText { Key = o.Key, En = o.En, Es = o.Es })) };

    [Theory, MemberData(nameof(Topics))]
    public void Own_steps_come_first_or_alone_and_every_caution_of_ours_stays(string key)
    {
        var topic = AidTopics.Find(key)!;
        foreach (var stage in Enum.GetValues<LifeStage>())
        {
            var ours = FirstAid.Of(topic, stage, new AidTank());
            var before = FirstAid.Of(topic, stage, Saying((topic.BeforeKey, "One.\nTwo.", "Uno.\nDos.")));
            var instead = FirstAid.Of(topic, stage, Saying((topic.InsteadKey, "One.\nTwo.", "Uno.\nDos.")));

            Assert.Equal((Bilingual[])[new("One.", "Uno."), new("Two.", "Dos."), .. ours.Say], before.Say);
            Assert.Equal((Bilingual[])[new("One.", "Uno."), new("Two.", "Dos.")], instead.Say);
            Assert.All([before, instead], said => Assert.Empty(ours.Cautions.Concat(Always).Except(said.Cautions)));
            Assert.All([before, instead], said => Assert.Equal(said.Cautions.Count, said.Cautions.Distinct().Count()));
            Assert.All([before, instead], said => Assert.Equal(Warnings.PlugInShort.Es, said.In("es").Guard));
        }
    }

    [Fact]
    public void A_cause_with_steps_of_its_own_is_not_said_in_the_words_of_its_kind()
    {
        var at = TestWorld.Now;
        var tank = Saying(("aid.pump-fault.instead", "Pump.", "Bomba."), ("aid.leak.before", "Leak.", "Fuga."), ("aid.warm.instead", "Warm.", "Tibia."), ("aid.iced-coil.before", "Ice.", "Hielo."));

        Assert.Equal("Pump.", FirstAid.Script(FlagKind.PumpFault, LifeStage.Egg, tank).Say[0].En);
        Assert.Equal("Leak.", FirstAid.Script(FlagKind.PumpFault, LifeStage.Egg, tank, new LeakEvidence(LifeStage.Egg, at)).Say[0].En);
        Assert.Equal("Ice.", FirstAid.Script(FlagKind.Warm, LifeStage.Egg, tank, new TemperatureEvidence(LifeStage.Egg, 16, at, 15, at, 10.5) { LooksLike = Suspect.CoilIced }).Say[0].En);
    }

    [Fact]
    public void The_question_of_the_diagnosis_goes_before_the_programmes_own()
    {
        var tank = Saying(("aid.warm.ask", "Blind?", "¿Persiana?"));
        var evidence = new TemperatureEvidence(LifeStage.Egg, 16, TestWorld.Now, 15, TestWorld.Now, 10.5);

        Assert.Equal("Blind?", FirstAid.Script(FlagKind.Warm, LifeStage.Egg, tank, evidence).AskNext.En);
        Assert.Contains("does the chiller hum", FirstAid.Script(FlagKind.Warm, LifeStage.Egg, tank, evidence with { LooksLike = Suspect.ChillerDead }).AskNext.En, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Figures_are_those_of_the_tank_in_both_languages()
    {
        var tank = Saying(("aid.warm.before", "{Tank}: {water now}, {set point}, {warmest}, {coldest}, {volume}, {part of the water}, {small part of the water}, {cooling}.", "{tank}: {water now}, {volume}."));
        var evidence = new TemperatureEvidence(LifeStage.Egg, 16.1, TestWorld.Now, 15, TestWorld.Now, 10.5);

        var step = FirstAid.Script(FlagKind.Warm, LifeStage.Egg, tank, evidence).Say[0];

        Assert.Equal("A001: 61 °F (16.1 °C), 50.9 °F (10.5 °C), 54 °F (12.2 °C), 39.2 °F (4 °C), 208 L (55 gal), 20% (42 L (11 gal)), 10% (20.8 L (5.5 gal)), 2 °F (1.1 °C).", step.En);
        Assert.Equal("A001: 61 °F (16,1 °C), 208 L (55 gal).", step.Es);
        Assert.Equal("A001: lo que marca el termómetro, 208 L (55 gal).", FirstAid.Of(AidTopics.Of(FlagKind.Warm), LifeStage.Egg, tank).Say[0].Es);
    }

    [Fact]
    public void A_class_reads_the_programmes_few_words_and_still_whom_to_tell_and_what_not_to_touch()
    {
        var texts = Saying(("aid.warm.class", "the tank feels warm", "el tanque está tibio")).Texts;

        Assert.Equal("Tell your teacher now: the tank feels warm. Do not touch any plug.", FirstAid.ForClass(FlagKind.Warm, texts, "en"));
        Assert.Equal("Dile ya a tu maestra o maestro: el tanque está tibio. No toques ningún enchufe.", FirstAid.ForClass(FlagKind.Warm, texts, "es"));
        Assert.Equal("Tell your teacher now: the water is too cold. Do not touch any plug.", FirstAid.ForClass(FlagKind.Cold, texts, "en"));
    }
}
