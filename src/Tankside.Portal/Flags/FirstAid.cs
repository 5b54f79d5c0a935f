using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>What to say first, and the guard sentence that stands beside it.</summary>
public sealed record FirstAidCard(IReadOnlyList<string> Say, IReadOnlyList<string> Cautions, string AskNext);

/// <summary>
/// First aid by trouble and stage, as text to read out or send. Plugs, lids and water are for an adult; medicine, salt, copper and buffers
/// never without the local biologist. The steps are common practice in the trade, no source.
/// </summary>
public static class FirstAid
{
    private const string AdultAtThePlug =
        "An adult with dry hands does everything at plugs and cords; children stand back. If the outlet trips twice, leave it and call the building's electrician.";

    private const string AgencyWins = "Where your agency or school district says otherwise, do as they say.";

    private const string ColdSlowly = "Aim to hold, not to plunge: no more than 2 °F (1.1 °C) an hour.";

    public static FirstAidCard For(Finding finding) => finding.Kind switch
    {
        FlagKind.Warm or FlagKind.WarmingFast => Warm(finding.Evidence.Stage),
        FlagKind.ChillerFault => Chiller,
        FlagKind.IcedCoil => Ice,
        FlagKind.Cold => Cold,
        FlagKind.PumpFault => Pump(finding.Evidence.Stage),
        FlagKind.Ammonia => Ammonia,
        FlagKind.DieOff => DieOff(finding.Evidence.Stage),
        FlagKind.Silent => Silent,
        FlagKind.LateHatch => LateHatch,
        _ => new([], [AgencyWins], "What do you see at the tank?"),
    };

    private static FirstAidCard Warm(LifeStage stage) => new(
        [
            "Keep the pump and the air on.",
            "Lid and a blanket on, lights off, blinds down" + (stage == LifeStage.Fry ? ", no food today." : "."),
            "Float sealed frozen bottles, bagged twice; in a small tank half-litre ones. No bare ice: tap water ice brings chlorine.",
            ColdSlowly,
            "Read the water again every half hour and tell me the number.",
        ],
        [AdultAtThePlug, AgencyWins],
        "Does the chiller hum and is its grille warm? What does its own display say?");

    private static FirstAidCard Chiller => new(
        [
            "Keep the pump and the air on.",
            "An adult looks: is the display lit, is the outlet live, is the fan turning, is the grille free of dust and a hand's width from the wall?",
            "Lid and blanket on, lights off, no food. Sealed frozen bottles, bagged twice, hold the cold.",
            ColdSlowly,
        ],
        [AdultAtThePlug, "Nobody opens a chiller: the cooling circuit is for a licensed technician.", AgencyWins],
        "Is only the chiller off, or are pump and bubbles off too?");

    private static FirstAidCard Ice => new(
        [
            "An adult unplugs the chiller only. Pump and air stay on.",
            "Leave it off for two hours, or until all the ice is gone.",
            "Then put the probe in the middle of the tank in moving water, set the chiller to its set point and plug it in.",
            "Read the water every half hour and tell me the number.",
        ],
        [AdultAtThePlug, "Do not raise the set point to cure the ice, and do not chip at it.", AgencyWins],
        "Is the probe in the water? Is water moving past the coil?");

    private static FirstAidCard Cold => new(
        [
            "Leave the fish alone; cold slows them, it does not hurt them quickly.",
            "Look for ice on the coil and for a probe out of the water.",
            "Let the water come up slowly, no more than 1 °F (0.6 °C) a day.",
        ],
        [AdultAtThePlug, AgencyWins],
        "What does the chiller's set screen say, and is there ice on the coil?");

    private static FirstAidCard Pump(LifeStage stage) => new(
        [
            "An adult unplugs the pump, lifts it out over a bucket and looks for fish in it.",
            "Rinse the sponge in tank water, never under the tap. Spin the impeller. Tilt it under water till no bubbles come. Plug it in.",
            stage == LifeStage.Fry
                ? "Meanwhile pour water from a clean cup from a hand's height, again and again: that is air for the fish. No food."
                : "Meanwhile stir gently beside the eggs or alevins so that fresh water reaches them.",
            "If everything is off, look at the outlet and the breaker first; battery air if you have it.",
        ],
        [AdultAtThePlug, AgencyWins],
        "Is the chiller off too? Are fish at the surface?");

    private static FirstAidCard Ammonia => new(
        [
            "No food today.",
            "Tell me the pH before you change water.",
            "With pH 6.6 or more: change a fifth of the water with dechlorinated water at tank temperature, again tomorrow.",
            "With pH under 6.6: small changes of a tenth, several times.",
        ],
        ["A big change with alkaline water in an acid tank makes the ammonia more poisonous and can kill. No salt, no buffer, no medicine without the local biologist.", AgencyWins],
        "What are the pH and the water temperature, and is the test kit in date?");

    private static FirstAidCard DieOff(LifeStage stage) => new(
        [
            stage == LifeStage.Egg
                ? "Take out every white egg and any stuck to it with a baster; do not break a clump in the water."
                : "Take out the dead, note how many, and put two of them in a labelled bag in the refrigerator for the biologist.",
            "Photograph tank and dead, no faces in the picture.",
            "Test temperature, pH, ammonia and chlorine, and tell me what changed: water, food, filter, cleaning, spray, paint.",
            "Do not add anything to the water.",
        ],
        ["No medicine, salt or copper without the local biologist. Wash your hands afterwards.", AgencyWins],
        "Was water changed, or something sprayed or cleaned near the tank, in the last two days?");

    private static FirstAidCard Silent => new(
        [
            "Who is in the building now? Ask them to look at three things: cold to touch, water moving, bubbles.",
            "Read me the thermometer in the water.",
        ],
        [AgencyWins],
        "Is the regular adult away, and who stands in?");

    private static FirstAidCard LateHatch => new(
        [
            "Check the thermometer: a glass of ice and water, five minutes, should say 32 °F (0 °C).",
            "Look closely with a light for empty shells or tails.",
            "Late is often only colder than thought. Do not stir the eggs.",
        ],
        [AgencyWins],
        "Are there eyes in the eggs, and how many are white?");
}
