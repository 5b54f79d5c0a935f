using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>First aid where a whole area is marked. The order is the same as in the message to the teachers.</summary>
public static partial class FirstAid
{
    private static FirstAidCard? InAnArea(Evidence evidence) => evidence switch
    {
        PowerCutEvidence { BackAt: null } => PowerCut(evidence.Stage),
        PowerCutEvidence => PowerBack,
        TroubleSaidEvidence => Silent with { AskNext = "What do you see? Is the power on, is the water moving?" },
        ShutEvidence => new(
            [
                "Who has a key and leave to go in? Ask the school's office or the district before anybody drives.",
                "At the tank: read the water, look whether it moves, take out the dead, lid on, half food or none.",
                "If nobody may go in for days, ask the agency about an early release.",
            ],
            [AdultAtThePlug, "Nobody enters a shut building without leave, and nobody drives on a closed road for a tank.", AgencyWins],
            "When will somebody be in the building?"),
        _ => null,
    };

    private static FirstAidCard PowerCut(LifeStage stage) => new(
        [
            "Battery air first: the stone in the water, bubbles coming. Two pumps for a big tank.",
            stage == LifeStage.Fry
                ? "Without one: pour water from a clean cup from a hand's height, again and again. No food."
                : "Without one: stir gently beside the eggs or alevins so that fresh water reaches them.",
            "Then cold: lid and blanket on, lights off, sealed frozen bottles, bagged twice. No bare ice.",
            ColdSlowly,
            "Text me what the thermometer in the water says.",
        ],
        [AdultAtThePlug, "Stay away from the tank's cords where water stands on the floor.", AgencyWins],
        "Who is in the building, and is there a battery air pump?");

    private static FirstAidCard PowerBack => new(
        [
            "An adult looks: does the water move? If not, tilt the pump under water till no bubbles come.",
            "Is the chiller's display back on its own set point? Many forget it when the power goes.",
            "Is the air bubbling, and is the timer or switched outlet on?",
            "Tell me what the thermometer in the water says.",
        ],
        [AdultAtThePlug, AgencyWins],
        "Does every plug at the tank have power again?");
}
