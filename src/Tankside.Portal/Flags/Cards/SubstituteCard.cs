using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Flags.Cards;

/// <summary>For a teacher who has never seen the tank: one look, one reading, what never to do.</summary>
internal static class SubstituteCard
{
    public static CardSheet Of(CardTank tank, ClassWords words)
    {
        var language = words.Language;
        var fish = FishNow.Of(tank.View, words);
        return new CardSheet(
            language, Said($"Tank {tank.Code}: you stand in today", $"Tanque {tank.Code}: usted cubre la clase hoy"), tank.Where,
            CardWords.Printed(tank, words), $"{fish.Sentence} {fish.Next}",
            [
                new(Said("How cold the water must be", "Qué tan fría debe estar el agua"), Water(tank, Said)),
                new(Said("Look once, and write it down", "Mire una vez y anótelo"), [words["water"], words[tank.View.DeadField]], PartLook.Blanks),
                new("", [words["moving"], words["bubbles"], words["levelOk"], words["clear"]], PartLook.Ticks),
                new(Said("Send it", "Envíelo"),
                [
                    Said(
                        "Scan the tank’s code with any phone or tablet, fill in the same lines and send them. Nobody signs in, and no names are asked.",
                        "Escanee el código del tanque con un teléfono o tableta, llene los mismos datos y envíelos. No hay que entrar con cuenta ni se piden nombres."),
                    Said("A “no”, a number outside the span, or dead fish? Call. It is never a bother.", "¿Un «no», un número fuera de lo normal o peces muertos? Llame. Nunca es molestia."),
                ]),
                new(Said("Never", "Nunca"), Never(Said)),
            ],
            CardWords.Call(tank, words), CardWords.AgencyWins(words))
        {
            Code = new CardCode(
                tank.Label?.Address, tank.Label is null ? words["sheet.label"] : words["sheet.scan"], tank.Label?.TypedStart ?? "", tank.Label?.TypedCode ?? ""),
        };

        string Said(string en, string es) => new Bilingual(en, es).In(language);
    }

    private static string[] Water(CardTank tank, Func<string, string, string> said)
    {
        var (span, dial) = (CardWords.Span(tank.Safe.LowC, tank.Safe.HighC), AidFigures.Degrees(tank.DialC));
        return
        [
            said($"Safe today: {span.En}.", $"Bien hoy: {span.Es}."),
            said($"The chiller is set to {dial.En}. Leave its dial alone.", $"El enfriador está puesto a {dial.Es}. No lo cambie."),
            said("Outside the span? Read once more, then call.", "¿Fuera de esos números? Lea otra vez y luego llame."),
        ];
    }

    private static string[] Never(Func<string, string, string> said) =>
    [
        said("Never unplug or switch off anything here: what hums is meant to hum. Plugs and cords are for adults.",
            "Nunca desenchufe ni apague nada aquí: lo que zumba debe zumbar. Los enchufes y los cables son para los adultos."),
        said("No soap, hand cream or spray near the water.", "Nada de jabón, crema de manos ni aerosol cerca del agua."),
        said("No tap water that was not treated: what is in it can kill.", "Nada de agua de la llave sin tratar: lo que lleva puede matar."),
        said("No medicine and no salt, nothing else into the water. In doubt do not feed: too much food does more harm than a day without.",
            "Nada de medicinas ni sal, ni otra cosa en el agua. Si duda, no dé comida: demasiada hace más daño que un día sin ella."),
        said("No fish, egg or water leaves the tank: nobody releases them.", "Ningún pez, huevo ni agua sale del tanque: nadie los libera."),
    ];
}
