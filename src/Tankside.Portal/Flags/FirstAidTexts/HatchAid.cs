using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Hatch late or early, and first feeding that falls too near a break.</summary>
public static class HatchAid
{
    public static FirstAidScript Late(LifeStage stage) => new(
        [
            stage == LifeStage.Egg
                ? new("Look closely with a small lamp, one minute: empty shells or tails?",
                    "Mire de cerca con una linterna pequeña, un minuto: ¿cáscaras vacías o colas?")
                : new("Look closely: have they hatched? Then write \"hatched\" in today's reading.",
                    "Mire de cerca: ¿ya nacieron? Entonces escriba \"nacieron\" en la lectura de hoy."),
            KnowingAid.IceWater,
            new("Do not stir or roll the eggs. Late is often only colder than thought.",
                "No mueva ni ruede los huevos. Tarde muchas veces es solo más frío de lo pensado."),
            new("Take out white eggs with a baster and count them.",
                "Saque los huevos blancos con una pera de succión y cuéntelos."),
            .. When(stage == LifeStage.Fry, new(
                "They swim already? A tiny pinch of food, and tell me.",
                "¿Ya nadan? Una pizca muy pequeña de comida, y dígamelo.")),
        ],
        new("Do you see two dark eyes in the eggs, and how many are white?",
            "¿Ve dos ojos oscuros en los huevos, y cuántos están blancos?"),
        [Warnings.WashHands, Warnings.AgencyWins]);

    public static FirstAidScript Early(LifeStage stage) => new(
        [
            stage == LifeStage.Fry
                ? new("Do they swim up already? A tiny pinch of food, gone in five minutes, and tell me.",
                    "¿Ya suben a nadar? Una pizca muy pequeña de comida, que se acabe en cinco minutos, y dígamelo.")
                : new("This is no harm. Dim the light, leave them in peace, and do not feed.",
                    "Esto no hace daño. Baje la luz, déjelos en paz y no les dé comida."),
            new("Skim off foam and empty shells with a clean cup, twice a day.",
                "Quite la espuma y las cáscaras vacías con un vaso limpio, dos veces al día."),
            new("An adult covers the pump's intake with a sponge or a fine net.",
                "Un adulto cubre la entrada de la bomba con una esponja o una malla fina."),
            new("Write \"some\", \"half\" or \"all\" hatched in each day's reading: I move your feeding date by it.",
                "Escriba cada día en la lectura si nacieron algunos, la mitad o todos: con eso cambio su fecha de comida."),
            .. When(stage == LifeStage.Egg, new(
                "Leave the eggs that have not hatched alone: they follow within days.",
                "Deje en paz los huevos que no han nacido: les toca en pocos días.")),
        ],
        new("About how many have hatched: some, half or all? When did you see the first?",
            "¿Más o menos cuántos nacieron: algunos, la mitad o todos? ¿Cuándo vio el primero?"),
        [Warnings.AdultAtThePlug, Warnings.OnlyByPermit, Warnings.WashHands, Warnings.AgencyWins]);

    public static FirstAidScript FeedingNearBreak(LifeStage stage, AidTank tank)
    {
        var step = AidFigures.Step(tank.Limits[Limits.AidWarming]);
        return new(
            [
                .. OfTheFish(stage),
                new($"Only when I ask: an adult changes the chiller's set point, {step.En} a day at most.",
                    $"Solo si yo lo pido: un adulto cambia la temperatura fijada del enfriador, {step.Es} por día como máximo."),
                new("Tell me who has a key in the break, and a phone number for each closed day.",
                    "Dígame quién tiene llave durante el receso, y un teléfono para cada día cerrado."),
                new("Nobody to feed them? We move them to a watched tank before you close: tell me in time.",
                    "¿Nadie puede darles comida? Los llevamos a un tanque vigilado antes del cierre: avíseme a tiempo."),
            ],
            new("What is your last school day, and can an adult come in every day of the break?",
                "¿Cuál es su último día de clases, y puede venir un adulto cada día del receso?"),
            [Warnings.AdultAtThePlug, Warnings.OnlyByPermit, Warnings.AgencyWins]);
    }

    private static Bilingual[] OfTheFish(LifeStage stage) => stage switch
    {
        LifeStage.Egg =>
        [
            new("Nothing to do at the tank today: read the water every day, so that the date stays true.",
                "Hoy no hay nada que hacer en el tanque: lea la temperatura cada día para que la fecha siga siendo cierta."),
        ],
        LifeStage.Alevin =>
        [
            new("Do not feed yet: they live on their yolk. Write down when the first ones swim up.",
                "Todavía no les dé comida: viven de su saco. Anote cuándo suben a nadar los primeros."),
        ],
        LifeStage.Fry =>
        [
            new("Feed a fine pinch three to five times a day, near the flow. Only what is gone in five minutes.",
                "Dé una pizca fina de tres a cinco veces al día, cerca de la corriente. Solo lo que se acabe en cinco minutos."),
            new("Look for big heads and thin bodies: tell me how many.",
                "Busque cabezas grandes y cuerpos flacos: dígame cuántos."),
        ],
    };
}
