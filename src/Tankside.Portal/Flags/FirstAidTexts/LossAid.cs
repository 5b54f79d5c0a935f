using Tankside.Hatchery.Eggs;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Many dead, and fungus on what is left lying.</summary>
public static class LossAid
{
    private static readonly Bilingual TestAll = new(
        "Test temperature, pH, ammonia and chlorine, and send me the numbers.",
        "Mida temperatura, pH, amoníaco y cloro, y mándeme los números.");

    private static readonly Bilingual AddNothing = new("Add nothing to the water.", "No agregue nada al agua.");

    public static FirstAidScript DieOff(LifeStage stage) => stage switch
    {
        LifeStage.Egg => Eggs,
        LifeStage.Alevin => Fish(
            new("Take out the dead with a baster and count them. Leave the living where they lie.",
                "Saque los muertos con una pera de succión y cuéntelos. Deje los vivos donde están."),
            new("Look for empty shells and foam, and take them out too.",
                "Busque cáscaras vacías y espuma, y sáquelas también.")),
        LifeStage.Fry => Fish(
            new("Net out the dead and count them. No food today.",
                "Saque los muertos con la red y cuéntelos. Hoy no les dé comida."),
            new("Big head and thin body? Tell me: they may not have learned to eat.",
                "¿Cabeza grande y cuerpo flaco? Dígamelo: quizá no aprendieron a comer.")),
    };

    private static FirstAidScript Eggs => new(
        [
            new("Take out every white egg, and any stuck to it, with a baster. Count them.",
                "Saque cada huevo blanco, y los que estén pegados a él, con una pera de succión. Cuéntelos."),
            new("Do not break a clump in the water: lift it out whole.",
                "No deshaga un grumo dentro del agua: sáquelo entero."),
            TestAll,
            AddNothing,
            new("Photograph the eggs and the dead.", "Tome una foto de los huevos y de los muertos."),
            new("An adult checks that pump and air run and that water moves through the basket.",
                "Un adulto comprueba que la bomba y el aire funcionen y que el agua pase por la canasta."),
        ],
        new("Was water changed, or something sprayed, painted or cleaned near the tank, in the last two days?",
            "¿Se cambió agua, o se roció, pintó o limpió algo cerca del tanque en los últimos dos días?"),
        [Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.WashHands, Warnings.NoFaces, Warnings.AgencyWins]);

    private static FirstAidScript Fish(Bilingual takeOut, Bilingual look) => new(
        [
            new("Gasping? An adult turns on all the air there is. Stop sprays and cleaning in the room.",
                "¿Boquean? Un adulto pone todo el aire que haya. Nada de aerosoles ni limpieza en el salón."),
            takeOut,
            TestAll,
            AddNothing,
            new("Two of the dead go into a bag marked \"not food\", into a refrigerator without food, for the biologist.",
                "Dos de los muertos van en una bolsa con el letrero \"no es comida\", en un refrigerador sin comida, para el biólogo."),
            look,
            new("Photograph the tank and the dead.", "Tome una foto del tanque y de los muertos."),
        ],
        new("Was water changed, or something sprayed, painted, cleaned or fed differently, in the last two days?",
            "¿Se cambió agua, o se roció, pintó, limpió o dio otra comida en los últimos dos días?"),
        [Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.OnlyByPermit, Warnings.WashHands, Warnings.NoFaces, Warnings.AgencyWins]);

    public static FirstAidScript Fungus(LifeStage stage) => new(
        [
            OfStage(
                stage,
                new("Suck out every white or fluffy egg, and any stuck to it, with a baster. Twice more tomorrow.",
                    "Saque cada huevo blanco o con pelusa, y los pegados a él, con una pera de succión. Mañana dos veces más."),
                new("Suck out dead eggs, empty shells and fluffy dead alevins with a baster. Twice more tomorrow.",
                    "Saque huevos muertos, cáscaras y alevines muertos con pelusa con una pera de succión. Mañana dos veces más."),
                new("Net out the dead. Photograph any living fish with cotton on it.",
                    "Saque los muertos con la red. Tome una foto de cada pez vivo que tenga algodón.")),
            stage == LifeStage.Fry
                ? new("Add nothing to the water: the biologist looks first.", "No agregue nada al agua: primero mira el biólogo.")
                : new("Do not break a clump in the water: lift it out whole.", "No deshaga un grumo dentro del agua: sáquelo entero."),
            stage == LifeStage.Fry
                ? new("Keep two of the dead in a bag marked \"not food\", in a refrigerator without food.",
                    "Guarde dos de los muertos en una bolsa con el letrero \"no es comida\", en un refrigerador sin comida.")
                : new("Add nothing to the water: picking is the cure.", "No agregue nada al agua: sacarlos es el remedio."),
            new("Keep the water moving past them, the lid on and the light dim.",
                "Que el agua siga pasando junto a ellos, con la tapa puesta y poca luz."),
            new("Rinse baster and net in hot water, let them dry, and use them in this tank only.",
                "Enjuague la pera y la red con agua caliente, déjelas secar y úselas solo en este tanque."),
        ],
        new("How many are fluffy or white, and do they lie together in one place?",
            "¿Cuántos tienen pelusa o están blancos, y están juntos en un lugar?"),
        [Warnings.NoRemedies, Warnings.OnlyByPermit, Warnings.BleachAndBoiling, Warnings.WashHands, Warnings.NoFaces, Warnings.AgencyWins]);
}
