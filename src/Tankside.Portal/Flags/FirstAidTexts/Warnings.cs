using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>The guard sentences. Each stands on every card whose steps could do the harm it warns of.</summary>
public static class Warnings
{
    public static readonly Bilingual AdultAtThePlug = new(
        "An adult with dry hands does everything at plugs and cords; children stand back. The outlet must have ground-fault protection (GFCI): if it has none, stop and call me. The cord hangs in a loop below it. If the outlet trips twice, leave it and call the building's electrician.",
        "Todo lo que toca enchufes y cables lo hace un adulto con las manos secas; los niños se quedan atrás. El tomacorriente debe tener protección de falla a tierra (GFCI): si no la tiene, deténgase y llámeme. El cable cuelga formando una curva por debajo. Si el tomacorriente se dispara dos veces, déjelo así y llame al electricista del edificio.");

    /// <summary>What is left of it in a text of few characters.</summary>
    public static readonly Bilingual PlugInShort = new(
        "Plugs: adults only, dry hands.",
        "Enchufes: solo adultos, manos secas.");

    public static readonly Bilingual AgencyWins = new(
        "Where your fish agency or school district says otherwise, do as they say.",
        "Si la agencia de pesca o el distrito escolar dicen otra cosa, haga lo que ellos digan.");

    public static readonly Bilingual NoRemedies = new(
        "No medicine, salt, copper or pH buffer without the local biologist.",
        "Nada de medicinas, sal, cobre ni reguladores de pH sin el biólogo local.");

    public static readonly Bilingual SealedIce = new(
        "Ice only sealed and in two bags. Bare ice from tap water brings chlorine into the tank.",
        "Hielo solo cerrado y en dos bolsas. El hielo suelto de agua de la llave lleva cloro al tanque.");

    public static readonly Bilingual NobodyOpensTheChiller = new(
        "Nobody opens a chiller: its cooling circuit is for a licensed technician.",
        "Nadie abre un enfriador: su circuito de frío es para un técnico con licencia.");

    public static readonly Bilingual WashHands = new(
        "Wash your hands afterwards, and rinse off the soap before you reach into the water again.",
        "Lávese las manos después, y enjuague bien el jabón antes de volver a meter la mano en el agua.");

    public static readonly Bilingual BleachAndBoiling = new(
        "Bleach and boiling water are an adult's work, away from the tank. Never mix bleach with anything but water.",
        "El blanqueador y el agua hirviendo son trabajo de un adulto, lejos del tanque. Nunca mezcle blanqueador con nada que no sea agua.");

    public static readonly Bilingual OnlyByPermit = new(
        "No fish leaves the tank for a stream or pond except under the permit, and no tank water or gravel goes there either.",
        "Ningún pez sale del tanque hacia un arroyo o estanque sin el permiso, y tampoco se echa allí agua ni grava del tanque.");

    public static readonly Bilingual NoFaces = new(
        "No children in the picture and no names.",
        "Sin niños en la foto y sin nombres.");

    /// <summary>Said wherever water is changed: acid water hides ammonia that alkaline water sets free.</summary>
    public static Bilingual BigChange(AidTank tank)
    {
        var ph = AidFigures.Number(tank.Limits[Limits.AidAcidPh], "0.0");
        return new(
            $"No big water change when the pH is under {ph.En}: new alkaline water makes the ammonia in the tank poisonous and can kill.",
            $"Ningún cambio grande de agua si el pH está por debajo de {ph.Es}: el agua nueva alcalina vuelve venenoso el amoníaco del tanque y puede matar.");
    }
}
