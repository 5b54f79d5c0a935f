using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Water that is too cold, and the iced coil behind it. Cold slows; the warmth that follows the ice is what kills.</summary>
public static class ColdAid
{
    private static readonly Bilingual NoChipping = new(
        "Do not raise the set point to cure the ice, and do not chip at it.",
        "No suba la temperatura fijada para quitar el hielo, y no lo pique.");

    private static readonly Bilingual AnyIce = new(
        "Do you see ice on the coil? If not, where does the probe hang and what does the set screen say?",
        "¿Ve hielo en el serpentín? Si no, ¿dónde cuelga la sonda y qué dice la pantalla?");

    public static FirstAidScript Cold(LifeStage stage, AidTank tank)
    {
        var aim = AidFigures.Degrees(tank.SetPointC);
        var step = AidFigures.Step(tank.Limits[Limits.AidWarming]);
        return new(
            [
                new($"An adult reads the chiller's set screen: set to {aim.En}, right scale, cooling and not heating?",
                    $"Un adulto lee la pantalla del enfriador: ¿fijado en {aim.Es}, escala correcta, enfriando y no calentando?"),
                new($"Let the water come up slowly: no more than {step.En} a day. No heater, no warm water.",
                    $"Deje subir el agua despacio: no más de {step.Es} por día. Sin calentador y sin agua tibia."),
                new("Look for ice on the coil, and for a probe that hangs out of the water.",
                    "Busque hielo en el serpentín y fíjese si la sonda quedó fuera del agua."),
                OfStage(
                    stage,
                    new("Leave the eggs alone: cold only slows them.", "Deje los huevos tranquilos: el frío solo los retrasa."),
                    new("Leave the alevins alone: cold only slows them.", "Deje los alevines tranquilos: el frío solo los retrasa."),
                    new("No food until they swim briskly again: cold fish cannot digest it.",
                        "Sin comida hasta que vuelvan a nadar con ganas: con frío no la digieren.")),
                new("Read the water again in an hour and send me the number.",
                    "Lea otra vez la temperatura del agua en una hora y mándeme el número."),
            ],
            new("What does the chiller's set screen say, and is there ice on the coil?",
                "¿Qué dice la pantalla del enfriador, y hay hielo en el serpentín?"),
            [Warnings.AdultAtThePlug, NoChipping, Warnings.AgencyWins]);
    }

    /// <summary>The refill was much colder than the tank.</summary>
    public static FirstAidScript Refill(LifeStage stage, AidTank tank)
    {
        var step = AidFigures.Step(tank.Limits[Limits.AidWarming]);
        return new(
            [
                new($"Put no warm water in. Let it come up by itself: no more than {step.En} a day.",
                    $"No eche agua tibia. Deje que suba sola: no más de {step.Es} por día."),
                OfStage(
                    stage,
                    new("An adult unplugs the pump and looks under its mesh and inside: trapped eggs foul the water.",
                        "Un adulto desenchufa la bomba y mira bajo la malla y dentro: los huevos atrapados pudren el agua."),
                    new("An adult unplugs the pump and looks under its mesh and inside for trapped alevins.",
                        "Un adulto desenchufa la bomba y mira bajo la malla y dentro si hay alevines atrapados."),
                    new("No food until they swim briskly again.", "Sin comida hasta que vuelvan a nadar con ganas.")),
                new("Change no more water now, unless it smells foul or I tell you.",
                    "No cambie más agua ahora, salvo que huela mal o yo se lo diga."),
                new("Next time let the new water stand beside the tank until both read the same.",
                    "La próxima vez deje el agua nueva junto al tanque hasta que las dos marquen lo mismo."),
                new("Read the water again in an hour and send me the number.",
                    "Lea otra vez la temperatura del agua en una hora y mándeme el número."),
            ],
            new("How cold was the new water, and was it tap, rain or well water?",
                "¿Qué tan fría estaba el agua nueva, y era de la llave, de lluvia o de pozo?"),
            [Warnings.AdultAtThePlug, Warnings.AgencyWins]);
    }

    public static FirstAidScript Ice(LifeStage stage, AidTank tank, bool seen) => new(
        [.. seen ? Thaw(tank) : LookThenThaw(tank), WatchWhileItThaws(stage, tank), .. When(stage == LifeStage.Fry, NoFoodToday)],
        seen
            ? new("Is the probe in the water, and does water move past the coil?",
                "¿Está la sonda dentro del agua, y se mueve el agua junto al serpentín?")
            : AnyIce,
        [Warnings.AdultAtThePlug, NoChipping, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins]);

    /// <summary>
    /// The water warms because ice cases the coil: while the chiller thaws unplugged, the cold is held by other means.
    /// </summary>
    /// <param name="isWarm">False while the water is not known to rise: then the bottle can wait.</param>
    public static FirstAidScript IceUnderWarmth(LifeStage stage, AidTank tank, bool isWarm) => isWarm
        ? new(
            [.. LookThenThaw(tank), LidAndBlanket, FloatBottle(tank), CoolSlowly(tank), .. When(stage == LifeStage.Fry, NoFoodToday)],
            AnyIce,
            [Warnings.AdultAtThePlug, NoChipping, Warnings.SealedIce, Warnings.NobodyOpensTheChiller, Warnings.AgencyWins])
        : Ice(stage, tank, seen: false);

    private static Bilingual[] Thaw(AidTank tank)
    {
        var (hours, aim) = (AidFigures.Number(tank.Limits[Limits.AidThaw], "0.#"), AidFigures.Degrees(tank.SetPointC));
        return
        [
            new("An adult unplugs the chiller only. Pump and air stay on.",
                "Un adulto desenchufa solo el enfriador. La bomba y el aire siguen encendidos."),
            new($"Leave it off for {hours.En} hours, or until all the ice is gone.",
                $"Déjelo apagado {hours.Es} horas, o hasta que no quede nada de hielo."),
            new($"Then an adult hangs the probe mid-tank in moving water, sets {aim.En} and plugs it in.",
                $"Luego un adulto cuelga la sonda en el centro, en agua que se mueve, fija {aim.Es} y lo enchufa."),
            ReadEveryHalfHour,
        ];
    }

    private static Bilingual[] LookThenThaw(AidTank tank)
    {
        var (hours, aim) = (AidFigures.Number(tank.Limits[Limits.AidThaw], "0.#"), AidFigures.Degrees(tank.SetPointC));
        return
        [
            new("An adult looks at the coil with a lamp: is there ice on it?",
                "Un adulto mira el serpentín con una linterna: ¿tiene hielo?"),
            new($"Ice? An adult unplugs the chiller only, for {hours.En} hours. Pump and air stay on.",
                $"¿Hay hielo? Un adulto desenchufa solo el enfriador, {hours.Es} horas. Bomba y aire siguen encendidos."),
            new($"No ice? An adult hangs the probe mid-tank in moving water and checks the set point: {aim.En}.",
                $"¿No hay? Un adulto cuelga la sonda en el centro, en agua que se mueve, y comprueba la temperatura fijada: {aim.Es}."),
            new("Once the ice is gone, an adult plugs the chiller in again.",
                "Cuando ya no haya hielo, un adulto vuelve a enchufar el enfriador."),
            ReadEveryHalfHour,
        ];
    }

    private static Bilingual WatchWhileItThaws(LifeStage stage, AidTank tank)
    {
        var limit = AidFigures.Degrees(tank.Limits[stage == LifeStage.Fry ? Limits.WarmLookFry : Limits.WarmLookEgg]);
        return new(
            $"Water over {limit.En} meanwhile? Lid and blanket on, lights off, and call me.",
            $"¿El agua pasa de {limit.Es} mientras tanto? Tapa y manta puestas, luces apagadas, y llámeme.");
    }
}
