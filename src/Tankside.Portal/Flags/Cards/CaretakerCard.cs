using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.Places;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Flags.Cards;

/// <summary>For whoever has the building at night and in the holidays. The steps are those of first aid.</summary>
internal static class CaretakerCard
{
    private const int DaysAhead = 70, MostBreaks = 4;

    public static CardSheet Of(CardTank tank, ClassWords words)
    {
        var language = words.Language;
        var warm = AidFigures.Degrees(tank.Safe.HighC);
        return new CardSheet(
            language, Said($"Tank {tank.Code}: nights and holidays", $"Tanque {tank.Code}: noches y vacaciones"), tank.Where, CardWords.Printed(tank, words),
            Said("What hums here is meant to hum, day and night. Fish live by it.", "Lo que zumba aquí debe zumbar, de día y de noche. De eso viven los peces."),
            [
                new(Said("Every night", "Cada noche"), Every(tank, Said)),
                new(Said("It leaks", "Gotea o hay agua en el piso"), Steps(FirstAid.Of(AidTopics.Leak, tank.Stage, tank.Aid), 0, 1, 5), PartLook.Steps),
                new(Said($"The water is warm: over {warm.En}", $"El agua está caliente: más de {warm.Es}"),
                    Steps(FirstAid.Script(FlagKind.Warm, tank.Stage, tank.Aid), 0, 1, 7), PartLook.Steps),
                new(Said("It is silent", "No se oye nada"), Steps(OwnAid.Put(AirAid.PowerFirst(tank.Stage, tank.Aid), AidTopics.PowerCut, tank.Stage, tank.Aid), 0, 1, 2), PartLook.Steps),
                new(Said("At the plug", "En el enchufe"), [Warnings.AdultAtThePlug.In(language), Warnings.NobodyOpensTheChiller.In(language), CardWords.Me(words)]),
                new(Said("When the school is closed", "Cuando la escuela está cerrada"), Closed(tank, words, Said)),
            ],
            CardWords.Call(tank, words), CardWords.AgencyWins(words));

        string Said(string en, string es) => new Bilingual(en, es).In(language);

        string[] Steps(FirstAidScript script, params int[] which) => [.. script.Shortened(which).Select(s => s.In(language)), Said("Then call, at any hour.", "Luego llame, a cualquier hora.")];
    }

    private static List<string> Every(CardTank tank, Func<string, string, string> said)
    {
        List<string> every =
        [
            said("Chiller, pump and air run with the lights off too. Leave plug, timer, power strip and circuit on.",
                "El enfriador, la bomba y el aire siguen encendidos aunque se apaguen las luces. No apague enchufe, temporizador, regleta ni circuito."),
            said("Cleaning the room: no spray, wax, bleach or paint near the tank; they go into the water with the air. The lid stays on.",
                "Al limpiar: nada de aerosol, cera, blanqueador ni pintura cerca del tanque; entran al agua con el aire. La tapa queda puesta."),
            said("Keep the chiller’s grille free and nothing on the lid. A full tank is never moved.",
                "Deje libre la rejilla del enfriador y nada sobre la tapa. Un tanque lleno nunca se mueve."),
            said("Nothing goes into the water: no tap water, no food.", "Nada entra al agua: ni agua de la llave ni comida."),
        ];
        if (HoursIfItStops.Of(tank.Record, tank.Now) is { StillAir: { } air })
        {
            var about = CardWords.About(air);
            every.Insert(1, said(
                $"Does the circuit have to go off for work? Call first. Without power the air lasts {about.En}.",
                $"¿Hay que cortar el circuito por una obra? Llame antes. Sin corriente el aire dura {about.Es}."));
        }

        return every;
    }

    /// <summary>Breaks alone: a weekend is left to the class.</summary>
    private static List<string> Closed(CardTank tank, ClassWords words, Func<string, string, string> said)
    {
        var breaks = tank.Record.Calendar.ClosedRuns(tank.Today, tank.Today.AddDays(DaysAhead))
            .Where(r => r.Last.DayNumber - r.First.DayNumber + 1 >= SchoolCalendar.BreakDays).Take(MostBreaks).ToList();
        List<string> lines =
        [
            said("If you are asked to look, once a day: does it hum, does the water move, is it cold, is the floor dry?",
                "Si le piden mirar, una vez al día: ¿zumba, se mueve el agua, está fría, está seco el piso?"),
        ];
        lines.AddRange(breaks.Count == 0
            ? [said("No break of three days or more is known for the next ten weeks.", "No se conoce ningún descanso de tres días o más en las próximas diez semanas.")]
            : breaks.Select(b => said($"Closed from {words.Day(b.First)} to {words.Day(b.Last)}", $"Cerrada del {words.Day(b.First)} al {words.Day(b.Last)}")));
        return lines;
    }
}
