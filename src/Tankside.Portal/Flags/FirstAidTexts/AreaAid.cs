using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>First aid where a whole area is marked. The order is the same as in the message to the teachers.</summary>
public static class AreaAid
{
    private static readonly Bilingual SendTheNumber = new(
        "Send me what the thermometer in the water says.",
        "Mándeme lo que marca el termómetro dentro del agua.");

    /// <summary>Null for a silence that no area explains.</summary>
    public static FirstAidScript? Of(LifeStage stage, AidTank tank, Evidence? evidence) => evidence switch
    {
        PowerCutEvidence { BackAt: null } => PowerCut(stage, tank),
        PowerCutEvidence => PowerBack(tank),
        TroubleSaidEvidence => KnowingAid.Silent(stage, null) with
        {
            AskNext = new("What do you see? Is the power on, is the water moving?", "¿Qué ve? ¿Hay luz, se mueve el agua?"),
        },
        ShutEvidence => Shut(stage),
        _ => null,
    };

    public static FirstAidScript PowerCut(LifeStage stage, AidTank tank) => new(
        [
            new("Battery air first: the stone in the water, bubbles coming. Two pumps for a big tank.",
                "Primero aire con pilas: la piedra dentro del agua y que salgan burbujas. Dos bombas si el tanque es grande."),
            stage == LifeStage.Fry
                ? new("None there? Pour tank water from a clean cup, hand-high, over and over. No food.",
                    "¿No hay? Vierta agua del tanque con un vaso limpio desde un palmo de alto, una y otra vez. Sin comida.")
                : StirBeside(stage),
            LidAndBlanket,
            FloatBottle(tank),
            CoolSlowly(tank),
            SendTheNumber,
        ],
        new("Who is in the building, and is there a battery air pump?",
            "¿Quién está en el edificio, y hay una bomba de aire con pilas?"),
        [
            Warnings.AdultAtThePlug,
            new("Stay away from the tank's cords where water stands on the floor.",
                "No se acerque a los cables del tanque si hay agua en el piso."),
            Warnings.SealedIce,
            Warnings.AgencyWins,
        ]);

    public static FirstAidScript PowerBack(AidTank tank)
    {
        var aim = AidFigures.Degrees(tank.SetPointC);
        return new(
            [
                new("An adult looks: does the water move? If not, tilt the pump under water until no bubbles come.",
                    "Un adulto mira: ¿se mueve el agua? Si no, incline la bomba bajo el agua hasta que no salgan burbujas."),
                new($"Is the chiller's display back on its set point, {aim.En}? Many forget it when the power goes.",
                    $"¿La pantalla del enfriador volvió a la temperatura fijada, {aim.Es}? Muchos la olvidan al irse la luz."),
                new("Is the air bubbling? An adult looks at the timer and the switched outlet.",
                    "¿Sale aire? Un adulto revisa el temporizador y el tomacorriente con interruptor."),
                SendTheNumber,
            ],
            new("Does every plug at the tank have power again?", "¿Tienen corriente otra vez todos los enchufes del tanque?"),
            [Warnings.AdultAtThePlug, Warnings.AgencyWins]);
    }

    public static FirstAidScript Shut(LifeStage stage) => new(
        [
            new("Who has a key and leave to go in? Ask the school's office or the district before anybody drives.",
                "¿Quién tiene llave y permiso para entrar? Pregunte en la oficina de la escuela o en el distrito antes de que alguien maneje."),
            new("At the tank: read the water, look whether it moves, take out the dead, lid on.",
                "En el tanque: lea la temperatura, mire si se mueve el agua, saque los muertos, ponga la tapa."),
            .. When(stage == LifeStage.Fry, new("Half the food or none.", "La mitad de la comida o nada.")),
            new("Nobody may go in for days? Tell me: I ask the agency about an early release.",
                "¿Nadie puede entrar en varios días? Dígamelo: pregunto a la agencia si se pueden liberar antes."),
        ],
        new("When will somebody be in the building?", "¿Cuándo habrá alguien en el edificio?"),
        [
            Warnings.AdultAtThePlug,
            new("Nobody enters a shut building without leave, and nobody drives on a closed road for a tank.",
                "Nadie entra sin permiso a un edificio cerrado, y nadie maneja por un camino cerrado por un tanque."),
            Warnings.OnlyByPermit,
            Warnings.AgencyWins,
        ]);
}
