using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Science.Water;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Nitrite, chlorine, metals and a sinking pH.</summary>
public static class WaterAid
{
    public static FirstAidScript Nitrite(LifeStage stage, AidTank tank, NitriteEvidence? e) =>
        e is { TestAgain: true } ? TestNitriteAgain(stage, tank) : NitriteIn(stage, tank);

    /// <summary>One high step of a kit alone.</summary>
    private static FirstAidScript TestNitriteAgain(LifeStage stage, AidTank tank) => new(
        [
            new("Test nitrite again now, with a clean dry tube, before anything else. Send me the number.",
                "Mida otra vez el nitrito ahora, con un tubo limpio y seco, antes que nada. Mándeme el número."),
            .. When(stage == LifeStage.Fry, NoFoodToday),
            new("Still high? All the air you have on, and call me: then we change some water.",
                "¿Sigue alto? Ponga todo el aire que tenga y llámeme: entonces cambiamos algo de agua."),
            new("Leave the filter pads wet and unwashed.", "Deje las esponjas del filtro mojadas y sin lavar."),
        ],
        new("Is the kit in date, and is its number nitrite itself or nitrite as N?",
            "¿No ha vencido el kit, y su número es nitrito o nitrito como N?"),
        [Warnings.AdultAtThePlug, Warnings.BigChange(tank), Warnings.NoRemedies, Warnings.AgencyWins]);

    private static FirstAidScript NitriteIn(LifeStage stage, AidTank tank)
    {
        var (share, small) = (tank.Limits[Limits.AidChange], AidFigures.Percent(tank.Limits[Limits.AidChangeAcid]));
        var (percent, amount, acid) = (AidFigures.Percent(share), AidFigures.Volume(tank.Litres * share), AidFigures.Number(tank.Limits[Limits.AidAcidPh], "0.0"));
        return new(
            [
                new($"Test the pH. Under {acid.En}? Then change only {small.En} at a time.",
                    $"Mida el pH. ¿Menos de {acid.Es}? Entonces cambie solo el {small.Es} cada vez."),
                new($"If not, change {percent.En}, {amount.En}, treated and as cold as the tank. Again tomorrow.",
                    $"Si no, cambie el {percent.Es}, {amount.Es}, tratada y tan fría como el tanque. Otra vez mañana."),
                OfStage(
                    stage,
                    new("Take out every dead egg with a baster.", "Saque todos los huevos muertos con una pera de succión."),
                    new("Take out dead alevins and empty shells with a baster.", "Saque los alevines muertos y las cáscaras con una pera de succión."),
                    new("No food today, half tomorrow.", "Hoy no les dé comida, mañana la mitad.")),
                new("All the air you have on: nitrite makes it hard for blood to carry oxygen.",
                    "Todo el aire que tenga: con nitrito a la sangre le cuesta llevar oxígeno."),
                new("Leave the filter pads wet and unwashed: the helpful bacteria live there.",
                    "Deje las esponjas del filtro mojadas y sin lavar: ahí viven las bacterias buenas."),
                new("Test nitrite every day until it is 0 twice.", "Mida el nitrito cada día hasta que dé 0 dos veces."),
            ],
            new("Is the kit's number nitrite itself or nitrite as N, and was the filter cleaned this week?",
                "¿El número del kit es nitrito o nitrito como N, y se limpió el filtro esta semana?"),
            [Warnings.AdultAtThePlug, Warnings.BigChange(tank), Warnings.NoRemedies, Warnings.AgencyWins]);
    }

    public static FirstAidScript ChlorineIn(LifeStage stage, AidTank tank)
    {
        var whole = AidFigures.Volume(tank.Litres);
        return new(
            [
                new($"Chlorine neutraliser in now: the label's dose for the whole tank, {whole.En}.",
                    $"Neutralizador de cloro ahora: la dosis de la etiqueta para todo el tanque, {whole.Es}."),
                new("All the air you have on; let the outflow splash.",
                    "Ponga todo el aire que tenga; que la salida salpique."),
                new("No more water in unless it is treated first.",
                    "No entre más agua si no está tratada antes."),
                .. ByDisinfectant(tank),
                new("Was bleach near a net, a bucket or the tank? Put those things aside.",
                    "¿Hubo blanqueador cerca de una red, un balde o el tanque? Aparte esas cosas."),
                OfStage(
                    stage,
                    new("Leave the eggs in place; watch for white ones over two days.",
                        "Deje los huevos en su lugar; vigile dos días si se ponen blancos."),
                    new("Leave the alevins in place; count the dead morning and afternoon.",
                        "Deje los alevines en su lugar; cuente los muertos por la mañana y por la tarde."),
                    new("No food today. Gasping fish stay in: moving them hurts more.",
                        "Hoy no les dé comida. Los peces que boquean se quedan: moverlos daña más.")),
                new("Test chlorine again in ten minutes and send me the number.",
                    "Mida otra vez el cloro en diez minutos y mándeme el número."),
            ],
            new("How much water went in, when, and was neutraliser put in it first?",
                "¿Cuánta agua entró, cuándo, y se le puso antes el neutralizador?"),
            [Warnings.AdultAtThePlug, Warnings.BleachAndBoiling, Warnings.NoRemedies, Warnings.AgencyWins]);
    }

    private static Bilingual[] ByDisinfectant(AidTank tank) => tank.Disinfectant switch
    {
        Disinfectant.Chlorine => [],
        Disinfectant.Chloramine => [Chloramine(tank)],
        Disinfectant.Unknown =>
        [
            new("Nobody knows whether your tap has chlorine or chloramine: use a neutraliser that is for both.",
                "No sabemos si su agua de la llave lleva cloro o cloramina: use un neutralizador que sirva para los dos."),
            Chloramine(tank),
        ],
        Disinfectant.None =>
        [
            new("Your water is said to hold no chlorine: look for bleach, a cleaned bucket, or an old test strip.",
                "Se dice que su agua no lleva cloro: busque blanqueador, un balde lavado o una tira de prueba vieja."),
        ],
    };

    /// <summary>Chloramine neutralised leaves its ammonia behind, in proportion.</summary>
    private static Bilingual Chloramine(AidTank tank)
    {
        var left = AidFigures.Number(tank.Limits[Limits.AidTapChlorine] * Chlorine.AmmoniaNPerChlorine, "0.0");
        return new(
            $"With chloramine, test ammonia in an hour: neutralising it leaves up to about {left.En} mg/L behind.",
            $"Si es cloramina, mida el amoníaco en una hora: al neutralizarla quedan hasta unos {left.Es} mg/L.");
    }

    public static FirstAidScript Metals(LifeStage stage) => new(
        [
            new("Stop using that tap. No more of its water into the tank.",
                "Deje de usar esa llave. Que no entre más de esa agua al tanque."),
            new("For changes use water from a proven school or bottled spring water, as cold as the tank; not distilled.",
                "Para los cambios use agua de una escuela probada o agua embotellada de manantial, tan fría como el tanque; no destilada."),
            new("Fill a clean bottle with the first water of the morning from that tap, and keep it cold for me.",
                "Llene una botella limpia con la primera agua de la mañana de esa llave y guárdela fría para mí."),
            new("Nothing of brass, copper or zinc may touch the water: an adult takes such parts out.",
                "Nada de latón, cobre o zinc debe tocar el agua: un adulto saca esas piezas."),
            OfStage(
                stage,
                new("Eggs stand it better than fish: the danger begins at hatch, so we have days.",
                    "Los huevos lo aguantan mejor que los peces: el peligro empieza al nacer, así que tenemos días."),
                new("Count the dead morning and afternoon: alevins suffer first.",
                    "Cuente los muertos por la mañana y por la tarde: los alevines son los primeros en sufrir."),
                new("No food today; count the dead morning and afternoon.",
                    "Hoy no les dé comida; cuente los muertos por la mañana y por la tarde.")),
        ],
        new("Are there new pipes, a new tap or a metal can in use, and did this happen here in other years?",
            "¿Hay tuberías nuevas, una llave nueva o una lata de metal en uso, y pasó esto aquí otros años?"),
        [Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.AgencyWins]);

    public static FirstAidScript PhSag(LifeStage stage, AidTank tank)
    {
        var share = tank.Limits[Limits.AidChangeAcid];
        var (percent, amount) = (AidFigures.Percent(share), AidFigures.Volume(tank.Litres * share));
        return new(
            [
                new("Test carbonate hardness (KH) and pH of the tank and of the tap, and tell me all four.",
                    "Mida la dureza de carbonatos (KH) y el pH del tanque y de la llave, y dígame los cuatro números."),
                new($"Change {percent.En}, {amount.En}, treated and as cold as the tank, once a day. Not more at once.",
                    $"Cambie el {percent.Es}, {amount.Es}, tratada y tan fría como el tanque, una vez por día. No más de una vez."),
                new("Add nothing to lift the pH: the local biologist decides that.",
                    "No agregue nada para subir el pH: eso lo decide el biólogo local."),
                new("Test ammonia too: it turns poisonous when the pH comes up.",
                    "Mida también el amoníaco: se vuelve venenoso cuando sube el pH."),
                OfStage(
                    stage,
                    new("Take out every dead egg with a baster.", "Saque todos los huevos muertos con una pera de succión."),
                    new("Take out dead alevins and empty shells with a baster.", "Saque los alevines muertos y las cáscaras con una pera de succión."),
                    new("Half the food this week; siphon waste off a third of the gravel.",
                        "La mitad de la comida esta semana; aspire los desechos de un tercio de la grava.")),
            ],
            new("How did the pH go over the last two weeks, and when was water last changed?",
                "¿Cómo fue el pH en las últimas dos semanas, y cuándo se cambió agua por última vez?"),
            [Warnings.BigChange(tank), Warnings.NoRemedies, Warnings.AgencyWins]);
    }
}
