using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>A tank that is not ready, a tally that does not balance, a report that is late.</summary>
public static class AccountAid
{
    /// <param name="due">Known while the eggs are still to come: then the tank is first, and the cooler after.</param>
    public static FirstAidScript NotReady(AidTank tank, ReadinessEvidence? due)
    {
        var (aim, match) = (AidFigures.Degrees(tank.SetPointC), AidFigures.Step(tank.Limits[Limits.AidMatch]));
        Bilingual[] before =
        [
            new($"An adult checks the chiller: running, set to {aim.En}, grille free?",
                $"Un adulto revisa el enfriador: ¿funciona, está fijado en {aim.Es}, rejilla libre?"),
            new("Read the water now and every day, and send me the numbers. Lid on, tank out of the sun.",
                "Lea la temperatura ahora y cada día, y mándeme los números. Tapa puesta, tanque fuera del sol."),
        ];
        return new(
            [
                .. due is null ? [] : before,
                new("Eggs there already? Keep them in the cooler: lid shut, moist, no standing melt water.",
                    "¿Ya llegaron los huevos? Déjelos en la hielera: tapa cerrada, húmedos, sin agua de deshielo."),
                new($"Get the tank down first: an adult checks that the chiller runs and is set to {aim.En}.",
                    $"Primero baje el tanque: un adulto comprueba que el enfriador funcione y esté fijado en {aim.Es}."),
                new($"Eggs go in only when box and tank are within {match.En}. Or we collect them: call me.",
                    $"Los huevos entran solo si caja y tanque difieren menos de {match.Es}. O pasamos a recogerlos: llámeme."),
                .. When(due is null, new(
                    "No eggs yet? Read the water every day and send the numbers: I need several cold days in a row.",
                    "¿Todavía no hay huevos? Lea la temperatura cada día y mande los números: necesito varios días fríos seguidos.")),
                new("Is the water treated against chlorine, is there a lid, are pump and air on?",
                    "¿El agua está tratada contra el cloro, hay tapa, están encendidas la bomba y el aire?"),
            ],
            new("What do the water and the box say, each in degrees, and since when are the eggs in the box?",
                "¿Cuánto marcan el agua y la caja, cada una en grados, y desde cuándo están los huevos en la caja?"),
            [Warnings.AdultAtThePlug, Warnings.SealedIce, Warnings.BleachAndBoiling, Warnings.OnlyByPermit, Warnings.AgencyWins]);
    }

    public static FirstAidScript Tally(LifeStage stage) => new(
        [
            OfStage(
                stage,
                new("Count the eggs on a photo, seen from above. Do not stir them to count.",
                    "Cuente los huevos en una foto tomada desde arriba. No los mueva para contarlos."),
                new("Alevins cannot be counted well: leave them in peace and write only the dead you take out.",
                    "Los alevines no se pueden contar bien: déjelos en paz y anote solo los muertos que saque."),
                new("Count the fish in tens into a cup of tank water, two people, or on a photo.",
                    "Cuente los peces de diez en diez en un vaso con agua del tanque, entre dos personas, o en una foto.")),
            new("Write what you counted and how. A difference is no fault: nobody is blamed.",
                "Escriba lo que contó y cómo. Una diferencia no es falta de nadie: no se culpa a nadie."),
            new("Do not work it out from what you received less the dead: that is not a count.",
                "No lo calcule restando los muertos de lo recibido: eso no es contar."),
            new("Look in the ledger with me: a delivery, move or release not entered, or a line entered twice? Never make it fit.",
                "Mire la cuenta conmigo: ¿falta una entrega, un traslado o una liberación, o hay una línea doble? Nunca la fuerce."),
            new("Live ones hide under gravel and in the filter: an adult unplugs the pump before anybody looks there.",
                "Los vivos se esconden bajo la grava y en el filtro: un adulto desenchufa la bomba antes de que alguien mire ahí."),
        ],
        new("Were any moved, taken as a sample, or found in filter or bucket and not written down?",
            "¿Se movieron algunos, se tomaron de muestra, o aparecieron en el filtro o un balde sin anotarlos?"),
        [Warnings.AdultAtThePlug, Warnings.OnlyByPermit, Warnings.NoFaces, Warnings.AgencyWins]);

    public static FirstAidScript ReportLate(LifeStage stage) => new(
        [
            stage == LifeStage.Fry
                ? new("Open Releases and write the report: day, water, number and how you counted.",
                    "Abra la página de liberaciones y escriba el informe: día, lugar, número y cómo contó.")
                : new("Open Releases and write the report, also when the fish are still in the tank.",
                    "Abra la página de liberaciones y escriba el informe, también si los peces siguen en el tanque."),
            new("None released? Write 0: a zero is a report, an empty page is not.",
                "¿No se liberó ninguno? Escriba 0: un cero es un informe, una página vacía no."),
            new("Not released yet? Write the day you plan, so that the permit stays good.",
                "¿Todavía no los liberó? Escriba el día previsto, para que el permiso siga valiendo."),
            new("Any left over? Tell me the number: they may go only where the permit says.",
                "¿Sobraron algunos? Dígame cuántos: solo pueden ir adonde dice el permiso."),
        ],
        new("What keeps the report: a number, a signature, or the day itself?",
            "¿Qué falta para el informe: un número, una firma o el día mismo?"),
        [Warnings.OnlyByPermit, Warnings.AgencyWins]);
}
