using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Water that stands still or has no bubbles: air for the fish first, the pump after.</summary>
public static class AirAid
{
    public static FirstAidScript Pump(LifeStage stage, AidTank tank, FlowEvidence? e) => e switch
    {
        { AllStopped: true } => PowerFirst(stage, tank),
        { StillWater: false, NoBubbles: true } => NoBubbles(stage),
        _ => StillWater(stage),
    };

    /// <summary>Everything stopped together: the power, not the pump.</summary>
    public static FirstAidScript PowerFirst(LifeStage stage, AidTank tank)
    {
        var aim = AidFigures.Degrees(tank.SetPointC);
        return new(
            [
                ResetOnce,
                stage == LifeStage.Fry ? AirByCup : StirBeside(stage),
                LidAndBlanket,
                .. When(stage == LifeStage.Fry, NoFoodToday),
                FloatBottle(tank),
                CoolSlowly(tank),
                new("Still dead? An adult may move the plug to another ground-fault outlet; no power strip and no cord on a wet floor.",
                    "¿Sigue sin corriente? Un adulto puede pasar el enchufe a otro tomacorriente con protección de falla a tierra; sin regletas y sin cables en el piso mojado."),
                new($"When power is back, an adult checks that the chiller shows its set point, {aim.En}, and that the pump pushes water.",
                    $"Cuando vuelva la corriente, un adulto comprueba que el enfriador muestre la temperatura fijada, {aim.Es}, y que la bomba mueva agua."),
            ],
            new("Is only this outlet dead, or the whole room or building? Are fish at the surface?",
                "¿No hay corriente solo en este tomacorriente, o en todo el salón o el edificio? ¿Hay peces en la superficie?"),
            [Warnings.AdultAtThePlug, Warnings.SealedIce, Warnings.AgencyWins]);
    }

    private static FirstAidScript StillWater(LifeStage stage) => new(
        [
            stage == LifeStage.Fry ? AirByCup : StirBeside(stage),
            new("An adult unplugs the pump, lifts it out over a bucket and looks for eggs or fish inside and under its mesh.",
                "Un adulto desenchufa la bomba, la saca sobre un balde y mira si hay huevos o peces dentro y bajo la malla."),
            new("The adult rinses its sponge in tank water, never under the tap, and spins the small wheel.",
                "El adulto enjuaga la esponja en agua del tanque, nunca bajo la llave, y hace girar la ruedita."),
            new("The adult tilts the pump under water until no bubbles come, dries both hands and plugs it in.",
                "El adulto inclina la bomba bajo el agua hasta que no salgan burbujas, se seca las manos y la enchufa."),
            OfStage(
                stage,
                new("Eggs in a heap? Spread them into one layer with a soft squirt from a baster.",
                    "¿Huevos amontonados? Extiéndalos en una sola capa con un chorro suave de una pera de succión."),
                new("Alevins in a heap? Part them with a soft squirt from a baster.",
                    "¿Alevines amontonados? Sepárelos con un chorro suave de una pera de succión."),
                new("No food until the water moves again.", "Sin comida hasta que el agua vuelva a moverse.")),
            new("Does it still stand? Keep on by hand and call me: I look for a spare.",
                "¿Sigue parada? Continúe a mano y llámeme: busco un repuesto."),
        ],
        new("Is the chiller off too? Are fish at the surface or gasping?",
            "¿Está apagado también el enfriador? ¿Hay peces en la superficie o boqueando?"),
        [Warnings.AdultAtThePlug, Warnings.WashHands, Warnings.AgencyWins]);

    private static FirstAidScript NoBubbles(LifeStage stage) => new(
        [
            new("An adult checks the air pump: plugged in, humming, hose on?",
                "Un adulto revisa la bomba de aire: ¿enchufada, zumbando, con la manguera puesta?"),
            new("Lift the outflow of the water pump a little, so that it splashes: that is air too.",
                "Suba un poco la salida de la bomba de agua para que salpique: eso también da aire."),
            new("Try a new air stone, or let the bare hose bubble.",
                "Pruebe otra piedra difusora, o deje burbujear la manguera sola."),
            OfStage(
                stage,
                new("While water moves past the eggs there is time: tell me what you find.",
                    "Mientras el agua pase junto a los huevos hay tiempo: dígame qué encuentra."),
                new("While water moves past the alevins there is time: tell me what you find.",
                    "Mientras el agua pase junto a los alevines hay tiempo: dígame qué encuentra."),
                new("No food until the bubbles are back. Fish at the surface? Pour water from a clean cup, over and over.",
                    "Sin comida hasta que vuelvan las burbujas. ¿Peces en la superficie? Vierta agua con un vaso limpio, una y otra vez.")),
        ],
        new("Does the water still move, and where do the fish stand: spread out or at the surface?",
            "¿Se mueve todavía el agua, y dónde están los peces: repartidos o en la superficie?"),
        [Warnings.AdultAtThePlug, Warnings.AgencyWins]);

    public static FirstAidScript LowOxygen(LifeStage stage, AidTank tank) => new(
        [
            stage == LifeStage.Fry ? AirByCup : StirBeside(stage),
            new("An adult checks pump and air: running, sponge not clogged, outflow splashing?",
                "Un adulto revisa la bomba y el aire: ¿funcionan, la esponja no está tapada, la salida salpica?"),
            OfStage(
                stage,
                new("Take out dead eggs with a baster: they use up the air as they rot.",
                    "Saque los huevos muertos con una pera de succión: al pudrirse gastan el aire."),
                new("Take out dead alevins and empty shells with a baster: they use up the air as they rot.",
                    "Saque los alevines muertos y las cáscaras con una pera de succión: al pudrirse gastan el aire."),
                new("No food today. Siphon old food and waste off the bottom.",
                    "Hoy no les dé comida. Aspire del fondo la comida vieja y los desechos.")),
            new($"Keep the water cold, near {AidFigures.Degrees(tank.SetPointC).En}: cold water holds more air.",
                $"Mantenga el agua fría, cerca de {AidFigures.Degrees(tank.SetPointC).Es}: el agua fría guarda más aire."),
            new("Test the oxygen again in an hour and send me the number.",
                "Mida otra vez el oxígeno en una hora y mándeme el número."),
        ],
        new("Where are the fish, and are their gills going fast?",
            "¿Dónde están los peces, y mueven rápido las branquias?"),
        [Warnings.AdultAtThePlug, Warnings.WashHands, Warnings.AgencyWins]);
}
