using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.FirstAidTexts;

/// <summary>Each step is true for its stage and its evidence, and its amounts are those of the tank.</summary>
public class FirstAidStageTests
{
    private static readonly DateTime At = TestWorld.Now;

    private static readonly AidTank Tank = new() { Disinfectant = Disinfectant.Chloramine };

    private static string Say(FlagKind kind, LifeStage stage, Evidence? evidence = null, AidTank? tank = null, string language = "en") =>
        string.Join(" ", FirstAid.Script(kind, stage, tank ?? Tank, evidence).In(language).Say);

    [Theory]
    [InlineData(FlagKind.Warm)]
    [InlineData(FlagKind.WarmingFast)]
    [InlineData(FlagKind.ChillerFault)]
    [InlineData(FlagKind.PumpFault)]
    [InlineData(FlagKind.LowOxygen)]
    [InlineData(FlagKind.Nitrite)]
    public void Only_fish_that_eat_are_told_to_go_without_food(FlagKind kind)
    {
        Assert.Contains("No food", Say(kind, LifeStage.Fry), StringComparison.Ordinal);
        Assert.DoesNotContain("food", Say(kind, LifeStage.Egg), StringComparison.Ordinal);
        Assert.DoesNotContain("food", Say(kind, LifeStage.Alevin), StringComparison.Ordinal);
    }

    [Fact]
    public void Nobody_is_told_to_look_after_a_stage_that_is_not_in_the_tank()
    {
        var eggs = AidCases.All.Where(c => c.Stage == LifeStage.Egg && c.Kind is FlagKind.Warm or FlagKind.PumpFault or FlagKind.LowOxygen or FlagKind.Ammonia or FlagKind.DieOff or FlagKind.Cold);
        Assert.All(eggs.Where(c => c.Stage == LifeStage.Egg), c => Assert.DoesNotContain("alevin", string.Join(" ", c.Script.In("en").Say), StringComparison.OrdinalIgnoreCase));
        Assert.Contains("pour tank water", Say(FlagKind.PumpFault, LifeStage.Fry), StringComparison.Ordinal);
        Assert.Contains("beside the eggs", Say(FlagKind.PumpFault, LifeStage.Egg), StringComparison.Ordinal);
        Assert.Contains("beside the alevins", Say(FlagKind.PumpFault, LifeStage.Alevin), StringComparison.Ordinal);
        Assert.Contains("white egg", Say(FlagKind.DieOff, LifeStage.Egg), StringComparison.Ordinal);
        Assert.DoesNotContain("egg", Say(FlagKind.DieOff, LifeStage.Fry), StringComparison.Ordinal);
        Assert.Contains("Do not feed yet", Say(FlagKind.FeedingNearBreak, LifeStage.Alevin), StringComparison.Ordinal);
        Assert.Contains("Feed a fine pinch", Say(FlagKind.FeedingNearBreak, LifeStage.Fry), StringComparison.Ordinal);
    }

    [Fact]
    public void Ice_that_is_only_inferred_is_looked_for_before_anything_is_unplugged()
    {
        Assert.StartsWith("An adult unplugs the chiller only.", Say(FlagKind.IcedCoil, LifeStage.Egg, new IceEvidence(LifeStage.Egg, true, null, At, 10.5)), StringComparison.Ordinal);
        Assert.StartsWith("An adult looks at the coil", Say(FlagKind.IcedCoil, LifeStage.Egg, new IceEvidence(LifeStage.Egg, false, 3, At, 10.5)), StringComparison.Ordinal);
        Assert.Contains("for 2 hours", Say(FlagKind.IcedCoil, LifeStage.Egg, new IceEvidence(LifeStage.Egg, true, null, At, 10.5)), StringComparison.Ordinal);
    }

    public static TheoryData<FlagKind, Evidence> WarmByIce => new()
    {
        { FlagKind.Warm, new TemperatureEvidence(LifeStage.Fry, 19, At, 18, At, 10.5) },
        { FlagKind.WarmingFast, new WarmingEvidence(LifeStage.Fry, 14, At, 12, At.AddHours(-2), 1, true, 20, null, 21) },
        { FlagKind.ChillerFault, new ChillerEvidence(LifeStage.Fry, At, 14, 10.5, false, null, null) },
    };

    [Theory]
    [MemberData(nameof(WarmByIce))]
    public void Warmth_that_looks_like_ice_is_thawed_and_asks_for_ice(FlagKind kind, Evidence evidence)
    {
        var iced = evidence with { LooksLike = Suspect.CoilIced };

        Assert.StartsWith("An adult looks at the coil with a lamp: is there ice on it? Ice? An adult unplugs the chiller only, for 2 hours. Pump and air stay on.", Say(kind, LifeStage.Fry, iced), StringComparison.Ordinal);
        Assert.StartsWith("Un adulto mira el serpentín con una linterna: ¿tiene hielo? ¿Hay hielo? Un adulto desenchufa solo el enfriador, 2 horas.", Say(kind, LifeStage.Fry, iced, language: "es"), StringComparison.Ordinal);
        Assert.Contains("No food today.", Say(kind, LifeStage.Fry, iced), StringComparison.Ordinal);
        Assert.StartsWith("Do you see ice on the coil?", Ask(kind, iced), StringComparison.Ordinal);
        Assert.StartsWith("¿Ve hielo en el serpentín?", Ask(kind, iced, "es"), StringComparison.Ordinal);
        Assert.DoesNotContain("coil", Say(kind, LifeStage.Fry, evidence), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Suspect.SetPoint, "What does the chiller's set screen say: 50.9 °F (10.5 °C)")]
    [InlineData(Suspect.RoomOrSun, "Is sun on the glass")]
    [InlineData(Suspect.Probe, "Is the probe under water")]
    [InlineData(Suspect.Thermometer, "Does the thermometer say 32 °F (0 °C)")]
    [InlineData(Suspect.NothingWrong, "Does the chiller hum")]
    public void The_question_fits_what_it_looks_like(Suspect suspect, string question) =>
        Assert.StartsWith(question, Ask(FlagKind.Warm, new TemperatureEvidence(LifeStage.Fry, 19, At, 18, At, 10.5) { LooksLike = suspect }), StringComparison.Ordinal);

    [Fact]
    public void Still_water_keeps_asking_for_the_fish_and_a_dead_plug_is_never_thawed()
    {
        var still = new FlowEvidence(LifeStage.Fry, At, true, true, false, 11, 140);
        var together = new ChillerEvidence(LifeStage.Fry, At, 14, 10.5, true, null, null) { LooksLike = Suspect.CoilIced };

        Assert.Contains("Are fish at the surface", Ask(FlagKind.PumpFault, still with { LooksLike = Suspect.PumpStopped }), StringComparison.Ordinal);
        Assert.StartsWith("An adult with dry hands resets the outlet once.", Say(FlagKind.ChillerFault, LifeStage.Fry, together), StringComparison.Ordinal);
    }

    private static string Ask(FlagKind kind, Evidence evidence, string language = "en") =>
        FirstAid.Script(kind, evidence.Stage, Tank, evidence).In(language).AskNext;

    [Fact]
    public void Everything_stopped_together_is_the_power_and_an_idle_chiller_at_its_set_point_may_rest()
    {
        var together = new FlowEvidence(LifeStage.Fry, At, true, true, true, 11, 140);
        Assert.StartsWith("An adult with dry hands resets the outlet once.", Say(FlagKind.PumpFault, LifeStage.Fry, together), StringComparison.Ordinal);
        Assert.StartsWith("An adult with dry hands resets the outlet once.", Say(FlagKind.ChillerFault, LifeStage.Fry, new ChillerEvidence(LifeStage.Fry, At, 11, 10.5, true, null, null)), StringComparison.Ordinal);
        Assert.StartsWith("Battery air in", Say(FlagKind.PumpFault, LifeStage.Fry, together with { AllStopped = false }), StringComparison.Ordinal);
        Assert.Contains("A chiller rests", Say(FlagKind.ChillerFault, LifeStage.Egg, new ChillerEvidence(LifeStage.Egg, At, 10.8, 10.5, false, null, null)), StringComparison.Ordinal);
        Assert.DoesNotContain("A chiller rests", Say(FlagKind.ChillerFault, LifeStage.Egg, new ChillerEvidence(LifeStage.Egg, At, 13, 10.5, false, null, null)), StringComparison.Ordinal);
    }

    /// <summary>Fractions at 11 °C worked out by hand: pKa 9.7046; pH 6.4 gives 0.000495, pH 8 gives 0.01934.</summary>
    [Fact]
    public void In_an_acid_tank_it_is_said_what_a_big_change_would_set_free()
    {
        var acid = new AmmoniaEvidence(LifeStage.Fry, 4, At, 6.4, At, 11, 0.00198, 0.0103);

        var english = Say(FlagKind.Ammonia, LifeStage.Fry, acid);
        Assert.StartsWith("Change only 10% of the water, 20.8 L (5.5 gal), treated and as cold as the tank.", english, StringComparison.Ordinal);
        Assert.Contains("from 0.002 to 0.039 mg/L; harm begins near 0.016", english, StringComparison.Ordinal);
        Assert.Contains("de 0,002 a 0,039 mg/L; el daño empieza cerca de 0,016", Say(FlagKind.Ammonia, LifeStage.Fry, acid, language: "es"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_pH_at_which_it_turns_is_the_programmes_own()
    {
        var at = new AmmoniaEvidence(LifeStage.Fry, 1.5, At, 6.6, At, 11, 0.0012, 0.0103);
        var own = Tank with { Limits = new LimitSet(new Dictionary<string, double> { ["aid.acid-ph"] = 7 }) };

        Assert.StartsWith("Test the pH of the new water.", Say(FlagKind.Ammonia, LifeStage.Fry, at), StringComparison.Ordinal);
        Assert.StartsWith("Change only 10%", Say(FlagKind.Ammonia, LifeStage.Fry, at with { Ph = 6.59 }), StringComparison.Ordinal);
        Assert.StartsWith("Change only 10%", Say(FlagKind.Ammonia, LifeStage.Fry, at, own), StringComparison.Ordinal);
        Assert.StartsWith("Test the pH now and tell me", Say(FlagKind.Ammonia, LifeStage.Fry, at with { Ph = null, UnionizedN = null }), StringComparison.Ordinal);
    }

    /// <summary>0.8 x 0.8 x 0.8 x 0.0400 = 0.0205 is still over 0.0164; a fourth fifth brings it to exactly that.</summary>
    [Theory]
    [InlineData(0.0400, "4 such changes")]
    [InlineData(0.0200, "1 such change,")]
    public void The_number_of_changes_is_reckoned_from_the_test(double poison, string expected) =>
        Assert.Contains(expected, Say(FlagKind.Ammonia, LifeStage.Fry, new AmmoniaEvidence(LifeStage.Fry, 3, At, 7.8, At, 11, poison, 0.0164)), StringComparison.Ordinal);

    [Fact]
    public void Neutraliser_is_dosed_for_the_whole_tank_and_chloramine_leaves_ammonia()
    {
        var chloramine = Say(FlagKind.Chlorine, LifeStage.Fry);
        Assert.Contains("the label's dose for the whole tank, 208 L (55 gal)", chloramine, StringComparison.Ordinal);
        Assert.Contains("leaves up to about 0.6 mg/L behind", chloramine, StringComparison.Ordinal);
        Assert.DoesNotContain("chloramine", Say(FlagKind.Chlorine, LifeStage.Fry, tank: Tank with { Disinfectant = Disinfectant.Chlorine }), StringComparison.Ordinal);
        Assert.Contains("use a neutraliser that is for both", Say(FlagKind.Chlorine, LifeStage.Fry, tank: Tank with { Disinfectant = Disinfectant.Unknown }), StringComparison.Ordinal);
        Assert.Contains("look for bleach", Say(FlagKind.Chlorine, LifeStage.Fry, tank: Tank with { Disinfectant = Disinfectant.None }), StringComparison.Ordinal);
    }

    [Fact]
    public void A_small_tank_gets_a_small_bottle_and_foam_needs_fewer()
    {
        var warm = new TemperatureEvidence(LifeStage.Egg, 14, At, 12.2, At, 10.5);
        Assert.Contains("frozen 0.5-litre bottle", Say(FlagKind.Warm, LifeStage.Egg, warm, Tank with { Litres = 38 }), StringComparison.Ordinal);
        Assert.Contains("frozen 2-litre bottle", Say(FlagKind.Warm, LifeStage.Egg, warm), StringComparison.Ordinal);
        // 208 L bare: tau 13.1 h, UA 18.5 W/K; room 21 °C and 15 W of pump settle at 21.8 °C; 3.6 x 18.5 x 7.8 / 392.7 = 1.3 kg/h.
        Assert.Contains("takes about 1.3 kg of ice an hour, a new bottle about every 80 minutes", Say(FlagKind.Warm, LifeStage.Egg, warm), StringComparison.Ordinal);
        // The same in foam: tau 66.6 h, UA 3.6 W/K, settles at 25.1 °C; 0.4 kg/h.
        Assert.Contains("takes about 0.4 kg of ice an hour, a new bottle about every 5 hours", Say(FlagKind.Warm, LifeStage.Egg, warm, Tank with { Jacket = Science.Heat.Jacket.Foam }), StringComparison.Ordinal);
        Assert.Contains("no more than 2 °F (1.1 °C) an hour", Say(FlagKind.Warm, LifeStage.Egg, warm), StringComparison.Ordinal);
        Assert.Contains("no más de 2 °F (1,1 °C) por hora", Say(FlagKind.Warm, LifeStage.Egg, warm, language: "es"), StringComparison.Ordinal);
        Assert.Contains("it should say 32 °F (0 °C)", Say(FlagKind.StuckThermometer, LifeStage.Egg), StringComparison.Ordinal);
    }

    [Fact]
    public void The_first_day_after_a_break_is_another_silence()
    {
        Assert.StartsWith("Before lessons", Say(FlagKind.Silent, LifeStage.Fry, new SilenceEvidence(LifeStage.Fry, At, 0, 14, false, 11)), StringComparison.Ordinal);
        Assert.StartsWith("Who is in the building now?", Say(FlagKind.Silent, LifeStage.Fry, new SilenceEvidence(LifeStage.Fry, At, 2, 0, false, 11)), StringComparison.Ordinal);
        Assert.Contains("No reading has come since the eggs did", Say(FlagKind.Silent, LifeStage.Egg, new SilenceEvidence(LifeStage.Egg, null, 3, 0, false, null)), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_shared_cause_asks_its_own_question_and_tells_what_the_agency_note_holds()
    {
        var cards = Enum.GetValues<SharedBy>().Select(by => FirstAid.Script(FlagKind.SharedCause, LifeStage.Egg, Tank, AidCases.Shared(LifeStage.Egg, by)).In("en")).ToList();

        Assert.Equal(cards.Count, cards.Select(c => c.AskNext).Distinct().Count());
        Assert.All(cards, c => Assert.Contains(c.Say, s => s.StartsWith("The note to the agency holds: lot, rooms asked and answered", StringComparison.Ordinal)));
    }
}
