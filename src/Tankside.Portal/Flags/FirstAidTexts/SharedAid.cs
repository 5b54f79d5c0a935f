using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Several tanks, one cause: whom to ask, what to ask, and what the note to the agency holds. This is for the coordinator.</summary>
public static class SharedAid
{
    private static readonly Bilingual AgencyNote = new(
        "The note to the agency holds: lot, rooms asked and answered, received and dead in each, arrival temperatures, first day seen, photos.",
        "La nota a la agencia lleva: lote, salones preguntados y que respondieron, recibidos y muertos en cada uno, temperaturas al llegar, primer día en que se vio, fotos.");

    private static readonly Bilingual SaySums = new(
        "Give sums and dates, no phone numbers and no names.",
        "Dé sumas y fechas, sin teléfonos ni nombres.");

    public static FirstAidScript Of(SharedBy? by)
    {
        var (first, second, ask) = By(by);
        return new(
            [first, second, Others, AgencyNote, SaySums],
            ask,
            [Warnings.AdultAtThePlug, Warnings.NoRemedies, Warnings.OnlyByPermit, Warnings.AgencyWins]);
    }

    private static readonly Bilingual Others = new(
        "Ask each other room the same: temperature, dead today and yesterday, water moving, what was done.",
        "Pregunte lo mismo en cada uno de los otros salones: temperatura, muertos hoy y ayer, si se mueve el agua, qué se hizo.");

    private static (Bilingual First, Bilingual Second, Bilingual Ask) By(SharedBy? by) => by switch
    {
        SharedBy.Lot => (
            new("Call every other room of this lot today, also those that report nothing wrong.",
                "Llame hoy a los demás salones de este lote, también a los que no avisan de nada."),
            new("Ask for a photo of the eggs and the dead, and keep dead ones cold in a bag marked \"not food\".",
                "Pida una foto de los huevos y de los muertos, y que guarden muertos fríos en una bolsa con el letrero \"no es comida\"."),
            new("Were the eggs grey, streaked or warm when the box was opened, and how many were dead then?",
                "¿Estaban los huevos grises, con vetas o tibios al abrir la caja, y cuántos venían muertos?")),
        SharedBy.Run => (
            new("Call the driver: box temperature, hours on the road, was a cooler opened, dropped or left in the sun?",
                "Llame al conductor: temperatura de la caja, horas de viaje, ¿se abrió, cayó o quedó al sol una hielera?"),
            new("Call the rooms of the run in the order of their stops.",
                "Llame a los salones de la ruta en el orden de las paradas."),
            new("What were box and tank in degrees when the eggs went in, and how long were they tempered?",
                "¿Cuántos grados tenían la caja y el tanque al entrar los huevos, y cuánto tiempo se igualaron?")),
        SharedBy.Area => (
            new("Find out first whether the power or the heating of the area is the cause: call one school office.",
                "Averigüe primero si la causa es la luz o la calefacción de la zona: llame a la oficina de una escuela."),
            new("Mark the area, so that all its rooms are asked at once. Fry and full tanks first.",
                "Marque la zona para preguntar a todos sus salones a la vez. Primero los tanques llenos y con crías."),
            new("Is the power on in your building, and does the pump run?",
                "¿Hay luz en su edificio, y funciona la bomba?")),
        SharedBy.Water => (
            new("Tell all rooms on this water: no tap water into a tank until we know.",
                "Avise a todos los salones con esta agua: no entra agua de la llave a ningún tanque hasta que sepamos."),
            new("Call the water supplier: was the main flushed, or the disinfectant changed or raised?",
                "Llame a la compañía de agua: ¿lavaron la red, o cambiaron o subieron el desinfectante?"),
            new("When was water last changed in your tank, and what did you put in it?",
                "¿Cuándo se cambió agua en su tanque por última vez, y qué le puso?")),
        SharedBy.ChillerBatch => (
            new("Call every room with a chiller of this batch: an adult there looks at display, fan and ice today.",
                "Llame a cada salón con un enfriador de esta serie: hoy un adulto revisa pantalla, ventilador y hielo."),
            new("Set spares aside for the tanks with the most fish before you send the first one out.",
                "Aparte repuestos para los tanques con más peces antes de enviar el primero."),
            new("How old is the chiller, and does it ever rest?",
                "¿Qué edad tiene el enfriador, y descansa alguna vez?")),
        null => (
            new("Call the rooms in the order of the round, and ask each the same questions.",
                "Llame a los salones en el orden de la ronda y haga a todos las mismas preguntas."),
            new("Look for what they share: lot, delivery run, area, water, chiller.",
                "Busque lo que comparten: lote, ruta de entrega, zona, agua, enfriador."),
            new("What was the same in all these rooms in the last three days?",
                "¿Qué fue igual en todos estos salones en los últimos tres días?")),
    };
}
