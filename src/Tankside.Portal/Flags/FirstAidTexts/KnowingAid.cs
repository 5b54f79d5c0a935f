using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using static Tankside.Portal.Flags.FirstAidTexts.Steps;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Nobody knows: silence, numbers that do not go together, a thermometer that never changes.</summary>
public static class KnowingAid
{
    /// <summary>Ice and water together stand at freezing: every thermometer can be held against that.</summary>
    public static Bilingual IceWater { get; } = new(
        $"Hold the thermometer five minutes in a glass of ice and water, away from the tank: it should say {AidFigures.Degrees(0).En}.",
        $"Ponga el termómetro cinco minutos en un vaso con hielo y agua, lejos del tanque: debe marcar {AidFigures.Degrees(0).Es}.");

    private static readonly Bilingual ThreeLooks = new(
        "Three looks: is the glass cold to the touch, does the water move, are there bubbles?",
        "Tres miradas: ¿el vidrio está frío al tacto, se mueve el agua, hay burbujas?");

    private static readonly Bilingual ReadAndSend = new(
        "Read the thermometer in the water and send me the number.",
        "Lea el termómetro dentro del agua y mándeme el número.");

    public static FirstAidScript Silent(LifeStage stage, SilenceEvidence? e) => new(
        [
            .. e is { AfterBreakDays: > 0, MissedDays: 0 } ? FirstDayBack(stage) : SomebodyThere,
            .. When(e is { LastAt: null }, new(
                "No reading has come since the eggs did. Is the label gone, or is the page blocked? I send a new one.",
                "No ha llegado ninguna lectura desde que llegaron los huevos. ¿Se perdió la etiqueta o está bloqueada la página? Le mando otra.")),
            new("Something off? An adult only goes to plug, pump and chiller. Call me.",
                "¿Algo está apagado? Solo un adulto va al enchufe, la bomba y el enfriador. Llámeme."),
        ],
        e is { AfterBreakDays: > 0, MissedDays: 0 }
            ? new("Did anybody look during the break, and was the power off?",
                "¿Alguien miró durante el receso, y se fue la luz?")
            : new("Is the regular adult away, and who stands in?",
                "¿Falta la persona encargada, y quién la reemplaza?"),
        [Warnings.AdultAtThePlug, Warnings.AgencyWins]);

    private static Bilingual[] FirstDayBack(LifeStage stage) =>
    [
        new("Before lessons: is the glass cold to the touch, does the water move, are there bubbles?",
            "Antes de clases: ¿el vidrio está frío al tacto, se mueve el agua, hay burbujas?"),
        ReadAndSend,
        OfStage(
            stage,
            new("Take out white eggs with a baster and count them.",
                "Saque los huevos blancos con una pera de succión y cuéntelos."),
            new("Take out the dead and empty shells with a baster, and count the dead.",
                "Saque los muertos y las cáscaras con una pera de succión, y cuente los muertos."),
            new("Take out the dead and count them. Feed only a pinch until I have your number.",
                "Saque los muertos y cuéntelos. Dé solo una pizca de comida hasta que yo tenga su número.")),
    ];

    private static Bilingual[] SomebodyThere =>
    [
        new("Who is in the building now? Ask an adult there to look at the tank.",
            "¿Quién está ahora en el edificio? Pídale a un adulto que mire el tanque."),
        ThreeLooks,
        ReadAndSend,
    ];

    public static FirstAidScript Contradictory(LifeStage stage, ContradictionEvidence? e) => new(
        [
            new("Look yourself: does the water move, are there bubbles, is the glass cold to the touch?",
                "Mire usted: ¿se mueve el agua, hay burbujas, el vidrio está frío al tacto?"),
            new("Read the thermometer again in the middle of the tank, after two minutes. °F or °C?",
                "Lea otra vez el termómetro en el centro del tanque, después de dos minutos. ¿°F o °C?"),
            new("Read the chiller's own display too and send me both numbers.",
                "Lea también la pantalla del enfriador y mándeme los dos números."),
            OfStage(
                stage,
                new("Leave the eggs alone until we know.", "Deje los huevos en paz hasta que sepamos."),
                new("Leave the alevins alone until we know.", "Deje los alevines en paz hasta que sepamos."),
                new("Feed nothing until we know.", "No les dé nada de comer hasta que sepamos.")),
            new("Something off? An adult only goes to plug, pump and chiller. Call me.",
                "¿Algo está apagado? Solo un adulto va al enchufe, la bomba y el enfriador. Llámeme."),
        ],
        Which(e),
        [Warnings.AdultAtThePlug, Warnings.AgencyWins]);

    private static Bilingual Which(ContradictionEvidence? e) => e?.Other switch
    {
        SaidFact.WaterFell => new(
            "Does the chiller run after all, or was ice or cold water put in?",
            "¿Funciona el enfriador después de todo, o se puso hielo o agua fría?"),
        SaidFact.HatchNotDue => new(
            "Was food really put in, and do you see any that have hatched?",
            "¿De verdad se puso comida, y ve alguno que ya nació?"),
        _ => new(
            "Which of the two is true now, and did an adult look or the class?",
            "¿Cuál de los dos datos es cierto ahora, y miró un adulto o la clase?"),
    };

    public static FirstAidScript StuckThermometer(LifeStage stage, AidTank tank)
    {
        var limit = AidFigures.Degrees(tank.Limits[stage == LifeStage.Fry ? Limits.WarmLookFry : Limits.WarmLookEgg]);
        return new(
            [
                IceWater,
                new("Tell me what it said. Then rinse it and hang it back in the middle of the tank.",
                    "Dígame qué marcó. Luego enjuáguelo y cuélguelo otra vez en el centro del tanque."),
                new("Until we know, read with a second thermometer and say which one you used.",
                    "Hasta que sepamos, lea con otro termómetro y diga cuál usó."),
                new($"Does the second one say more than {limit.En}? Call me at once.",
                    $"¿El otro marca más de {limit.Es}? Llámeme de inmediato."),
            ],
            new("Is it a strip, a glass or a digital one, and when was its battery changed?",
                "¿Es de tira, de vidrio o digital, y cuándo se le cambió la pila?"),
            [
                new("Broken glass thermometer? Nobody touches it; an adult calls the school office, and tell me.",
                    "¿Se rompió un termómetro de vidrio? Nadie lo toca; un adulto llama a la oficina de la escuela, y avíseme."),
                Warnings.AgencyWins,
            ]);
    }
}
